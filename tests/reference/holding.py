"""What recorded nights say of the next one's margin, by brute force.

The shared parts of three nights and of tonight are normal with the covariance of their kinds; each
night's offset is its shared part and a part of its own, and lay between two bounds. Summed over a
grid of the standard normals that make the shared parts (Cholesky), 61 points each from -6 to 6;
tonight's own direction is done in closed form. No method in common with src/model/holding.c.

The spreads are read from src/model/holding_constants.h, given as the only argument.
"""
import math
import re
import sys

text = open(sys.argv[1]).read()
SHOP, TRAY, DUST, BURN = (float(re.search(rf"define HOLDING_{name}_SPREAD ([0-9.]+)", text)[1])
                          for name in ("SHOP", "TRAY", "DUST", "BURN"))
KINDS = [("a", (1.0, 0.0)), ("a", (0.0, 1.0)), ("b", (1.0, 0.0)), ("a", (0.5, 0.5))]
INF = math.inf
# kind, low, high of each night; kind of tonight. Bounds are of the offset.
CASES = [
    ([(0, -0.30, INF)], 0),
    ([(0, -0.10, INF)], 0),
    ([(0, 0.10, INF)], 0),
    ([(0, -INF, -0.20)], 0),
    ([(0, -INF, -0.50)], 1),
    ([(0, -0.25, -0.15)], 0),
    ([(0, -0.25, -0.15)], 2),
    ([(0, 0.20, 0.22), (0, -INF, 0.05)], 0),
    ([(0, -0.10, INF), (0, -0.10, INF), (0, -0.10, INF)], 0),
    ([(0, 0.00, INF), (1, -INF, 0.00), (2, 0.05, INF)], 3),
    ([(3, -0.05, 0.10), (0, -INF, -0.15), (1, 0.20, INF)], 0),
    ([(2, -0.40, INF), (2, -INF, -0.05), (0, -0.02, 0.15)], 1),
]


def covariance(a, b):
    length = math.hypot(*KINDS[a][1]) * math.hypot(*KINDS[b][1])
    alike = sum(x * y for x, y in zip(KINDS[a][1], KINDS[b][1])) / length
    return SHOP**2 + TRAY**2 * (KINDS[a][0] == KINDS[b][0]) + DUST**2 * alike


def cholesky(kinds):
    lower = [[0.0] * len(kinds) for _ in kinds]
    for i, a in enumerate(kinds):
        for j in range(i + 1):
            rest = covariance(a, kinds[j]) - sum(lower[i][k] * lower[j][k] for k in range(j))
            if i == j:
                lower[i][i] = math.sqrt(rest) if rest > 1e-12 else 0.0
            elif lower[j][j] > 0:
                lower[i][j] = rest / lower[j][j]
    return lower


def under(x):
    return 0.5 * math.erfc(-x / math.sqrt(2))


def posterior(nights, tonight):
    lower = cholesky([kind for kind, _, _ in nights] + [tonight])
    points = [(-6 + 0.2 * i, math.exp(-((-6 + 0.2 * i) ** 2) / 2)) for i in range(61)]
    total = first = second = 0.0

    def descend(depth, normals, weight):
        nonlocal total, first, second
        if depth == len(nights):
            mean = sum(x * y for x, y in zip(lower[-1], normals))
            total += weight
            first += weight * mean
            second += weight * (mean * mean + lower[-1][-1] ** 2)
            return
        for z, chance in points if lower[depth][depth] > 0 else [(0.0, 1.0)]:
            part = sum(x * y for x, y in zip(lower[depth], normals + [z]))
            _, low, high = nights[depth]
            held = under((high - part) / BURN) - under((low - part) / BURN)
            if chance * held > 0:
                descend(depth + 1, normals + [z], weight * chance * held)

    descend(0, [], 1.0)
    mean = first / total
    return mean, math.sqrt(second / total - mean * mean)


def cell(value):
    return "" if math.isinf(value) else f"{value:g}"


print("# Offset of tonight's shared part after recorded nights; made by tests/reference/remake.")
print("# kinds: 0 beech in tray a, 1 cherry in a, 2 beech in b, 3 half and half in a")
print("kind_1,low_1,high_1,kind_2,low_2,high_2,kind_3,low_3,high_3,tonight,mean,spread")
for nights, tonight in CASES:
    cells = [f"{kind},{cell(low)},{cell(high)}" for kind, low, high in nights]
    cells += [",,"] * (3 - len(nights))
    mean, spread = posterior(nights, tonight)
    print(",".join(cells) + f",{tonight},{mean:.9f},{spread:.9f}")
