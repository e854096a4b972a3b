"""Which functions of src/ each test runs, found once by coverage and kept: a change in a function
can only be seen by a test that runs it."""
import glob
import hashlib
import json
import os
import subprocess

import trial

COVERAGE = ("--coverage", "-O1 -fno-inline --coverage")
LONG_S = 60 # a test that takes longer is taken to run everything, and tried last


def digest(path):
    with open(path, "rb") as file:
        return hashlib.sha256(file.read()).hexdigest()


def counts_of(folder):
    return glob.glob(os.path.join(folder, ".build/obj/src/*/*.gcda"))


def forget(folder):
    for path in counts_of(folder):
        os.remove(path)


def functions_run(folder):
    """Those that ran since the counts were last taken away, as FILE:FUNCTION."""
    counts = counts_of(folder)
    if not counts:
        return []
    said = subprocess.run(["gcov", "--json-format", "--stdout", *counts], cwd=folder, check=True,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout
    return sorted({f"{file['file']}:{function['name']}"
                   for line in said.splitlines() if line for file in json.loads(line)["files"]
                   for function in file["functions"] if function["execution_count"]})


class Covers:
    """The kept table: for each test the digest of its source, its seconds, what it runs (None:
    not known)."""

    def __init__(self, path):
        self.path, self.tests = path, {}
        if os.path.exists(path):
            with open(path) as file:
                self.tests = json.load(file)

    def renew(self, root):
        """Tries the tests that are new or were changed, in a tree of its own."""
        tree = trial.Tree(root, os.path.join(root, ".build/mutants/covers"), *COVERAGE)
        stale = [test for test in tree.tests()
                 if self.tests.get(test, {}).get("digest") != digest(os.path.join(root, test))]
        if stale and not tree.build():
            return
        for test in stale:
            forget(tree.folder)
            row = {"digest": digest(os.path.join(tree.folder, test)), "seconds": LONG_S,
                   "functions": None}
            if tree.link([test]) and tree.passes(test, LONG_S):
                row["seconds"], row["functions"] = tree.seconds[test], functions_run(tree.folder)
            self.tests[test] = row
            with open(self.path, "w") as file:
                json.dump(self.tests, file, indent=0)

    def saw(self, test, place):
        """Whether a test runs the function of a place; what is outside of functions, and a
        function of which nothing is known, may be seen by each that runs its file."""
        functions = self.tests.get(test, {}).get("functions")
        if functions is None:
            return True
        name = f"{place.path}:{place.function}"
        if any(name in (row["functions"] or []) for row in self.tests.values()):
            return name in functions
        return place.path.endswith(".h") or any(
            one.startswith(place.path + ":") for one in functions)
