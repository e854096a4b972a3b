"""A copy of the source tree in which one changed file at a time is built and tested."""
import glob
import os
import re
import resource
import shutil
import signal
import subprocess
import time

# Tests of the tools of the house see nothing of src/; these two of their folder run the program.
BLIND = re.compile(r"tests/tools/(?!test_(goldens|install)\.)")
MEMORY_BYTES = 4 << 30
BUILD_S = 600
UNKNOWN_S = 60
LINKED_AT_ONCE = 6
NAMED_AHEAD = 10 # a test named after a file is tried before others that take a tenth of its time
RUNNING = set() # process groups of commands that run now


def limits(processor_s):
    """What a changed program may take; one that loops or eats memory is stopped."""
    def set_limits():
        resource.setrlimit(resource.RLIMIT_CPU, (processor_s, processor_s + 5))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    return set_limits


def stop(session):
    """Stops what is left of a command and of all that it started, in whatever process group."""
    for name in os.listdir("/proc"):
        try:
            if name.isdigit() and os.getsid(int(name)) == session:
                os.kill(int(name), signal.SIGKILL)
        except (ProcessLookupError, PermissionError):
            pass


def stop_all(_signal, _frame):
    """Ends the run at once, with nothing left behind."""
    for group in list(RUNNING):
        stop(group)
    os._exit(1)


def run(command, folder, log, wall_s, processor_s):
    """Whether a command ends well in time, and the processor seconds it took with all that it
    waited for. All that it started is stopped with it."""
    environment = {name: value for name, value in os.environ.items()
                   if name not in ("MAKEFLAGS", "MFLAGS", "MAKELEVEL", "VARIANT", "ONLY")}
    environment["BURNSHEET"] = os.path.join(folder, ".build/burnsheet")
    environment["MARKS"] = os.path.join(folder, ".build/tests/tools/marks")
    with open(log, "wb") as output:
        process = subprocess.Popen(command, cwd=folder, env=environment, stdout=output,
                                   stderr=output, stdin=subprocess.DEVNULL,
                                   start_new_session=True, preexec_fn=limits(processor_s))
    RUNNING.add(process.pid)
    until, ended = time.monotonic() + wall_s, 0
    while not ended and time.monotonic() < until:
        time.sleep(0.01)
        ended, status, used = os.wait4(process.pid, os.WNOHANG)
    stop(process.pid)
    if not ended:
        ended, status, used = os.wait4(process.pid, 0)
        status = status or 1
    process.returncode = status
    RUNNING.discard(process.pid)
    return status == 0, used.ru_utime + used.ru_stime


def files_of(tree):
    """The files of a source tree that were not built, but for the faces."""
    found = set()
    for folder, folders, names in os.walk(tree):
        folders[:] = [name for name in folders if name not in (".git", ".build", "out")]
        found |= {os.path.relpath(os.path.join(folder, name), tree) for name in names}
    return found


def copy_changed(source, target):
    """Makes `target` hold the files of the tree at `source`; equal ones keep their time."""
    wanted = files_of(source)
    for name in sorted(wanted):
        old, new = os.path.join(source, name), os.path.join(target, name)
        os.makedirs(os.path.dirname(new), exist_ok=True)
        if not os.path.exists(new) or open(old, "rb").read() != open(new, "rb").read():
            shutil.copy(old, new)
    for name in files_of(target) - wanted:
        os.remove(os.path.join(target, name))


class Tree:
    """The copy, as the source tree has it until `change` and again after `restore`."""

    def __init__(self, source, folder, link="", compile="-O1"):
        self.folder = folder
        self.flags = [f"CFLAGS={compile}", f"LDFLAGS={link}"]
        os.makedirs(folder, exist_ok=True)
        copy_changed(source, folder)
        self.log = folder + ".log"
        self.seconds = {} # test: processor seconds of its last good run, now or earlier
        self.sound = {}   # test: whether it passes when nothing is changed, as far as tried
        self.objects = {} # source file: its object when nothing is changed

    def make(self, *targets):
        """Builds targets; the include rule is not looked at again."""
        command = ["make", f"-j{os.cpu_count()}", *self.flags, "-o", ".build/include-rule.kept",
                   *targets]
        return run(command, self.folder, self.log, BUILD_S, BUILD_S)[0]

    def said(self):
        """The end of what the last command said."""
        with open(self.log, errors="replace") as log:
            return log.read()[-2000:]

    def read(self, path):
        with open(os.path.join(self.folder, path)) as file:
            return file.read()

    def write(self, path, text):
        with open(os.path.join(self.folder, path), "w") as file:
            file.write(text)

    def build(self):
        """Builds the library and the program, and what scripts of the tests want beside them."""
        beside = {"tests/fault/failing_calls.c": ".build/tests/fault/failing_calls.so",
                  "tests/tools/marks.c": ".build/tests/tools/marks",
                  "templates/burnsheet.1": ".build/burnsheet.1"}
        wanted = [built for source, built in beside.items()
                  if os.path.exists(os.path.join(self.folder, source))]
        return self.make(".build/libburnsheet.a", ".build/burnsheet", *wanted)

    def build_first(self):
        """The same with nothing changed; keeps the objects."""
        good = self.build()
        for path in glob.glob(os.path.join(self.folder, "src/*/*.c")):
            name = os.path.relpath(path, self.folder)
            self.objects[name] = self.object_of(name)
        return good

    def same_code(self, path):
        """Whether a changed file came to the same machine code."""
        return path in self.objects and self.object_of(path) == self.objects[path]

    def object_of(self, path):
        name = os.path.join(self.folder, ".build/obj", path[:-2] + ".o")
        try:
            with open(name, "rb") as file:
                return file.read()
        except FileNotFoundError:
            return b""

    def tests(self):
        """The tests that can see something, as paths of their sources."""
        found = []
        for folder in sorted(os.listdir(os.path.join(self.folder, "tests"))):
            path = os.path.join(self.folder, "tests", folder)
            for name in sorted(os.listdir(path)) if os.path.isdir(path) else []:
                test = f"tests/{folder}/{name}"
                if re.fullmatch(r"test_\w+\.(c|sh)", name) and not BLIND.match(test):
                    found.append(test)
        return found

    def link(self, tests):
        """Builds the programs of tests."""
        programs = [program_of(test) for test in tests if program_of(test) != test]
        return not programs or self.make(*programs)

    def passes(self, test, processor_s=300):
        """Whether a test that is built passes in the time that it may take."""
        usual_s = self.seconds.get(test)
        wall_s = 4 * processor_s
        if usual_s is not None:
            wall_s, processor_s = 60 + 40 * usual_s, int(10 + 5 * usual_s)
        good, took_s = run(["tests/run", program_of(test)], self.folder, self.log, wall_s,
                           processor_s)
        if good:
            self.seconds[test] = took_s
        return good

    def is_sound(self, test):
        """Whether a test passes with nothing changed, as the tree must be now."""
        if test not in self.sound:
            self.sound[test] = self.build() and self.link([test]) and self.passes(test)
        return self.sound[test]


def program_of(test):
    """What is run: a script itself, or the program that is built from a C file."""
    return test if test.endswith(".sh") else ".build/" + test[:-2]


def groups_for(path, tests, seconds):
    """The tests in the order in which they are likely to see a change of a file soon, a few at a
    time: quick ones that are named after it, then the quicker the sooner."""
    folder, stem = re.fullmatch(r"src/(\w+)/(\w+)\.[ch]", path).groups()
    stem = stem.split("_")[0]

    def rank(test):
        _, tested, name = test.split("/")
        took_s = seconds.get(test, UNKNOWN_S)
        named = tested == folder and stem in name
        return took_s / (NAMED_AHEAD if named else 1), test

    ordered = sorted(tests, key=rank)
    return [ordered[at:at + LINKED_AT_ONCE] for at in range(0, len(ordered), LINKED_AT_ONCE)]
