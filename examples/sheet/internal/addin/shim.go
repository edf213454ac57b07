package addin

// shimText is the fixed part of the Python component.
//
// An error goes back as a quiet NaN whose low 32 bits are Calc's error number;
// None or an exception would show as another error. The interface is imported
// when the component is made, not at module level: while an extension is being
// installed its type library is not live yet. Extensions are unpacked without
// the execute bit, so it is set here. The child is started at the first
// formula and again after it died; a watch ends a child that does not answer.
const shimText = `# {NOTE}
"""Spreadsheet functions behind {PREFIX}: each call is one line to a child process and one line back."""
import json
import math
import os
import platform
import stat
import struct
import subprocess
import sys
import threading
import time

import uno
import unohelper
from com.sun.star.lang import XServiceInfo
from com.sun.star.sheet import XAddIn

LEVEL = {LEVEL}
IMPLEMENTATION = "{PREFIX}"
SERVICES = (IMPLEMENTATION, "com.sun.star.sheet.AddIn")
MOST_ROWS = {ROWS}
MOST_COLUMNS = {COLUMNS}
PATIENCE = 20.0  # seconds
CODES = {CODES}


def nan_of(number):
    return struct.unpack("<d", struct.pack("<Q", 0x7FF8000000000000 | number))[0]


ERRORS = {code: nan_of(number) for code, number in CODES.items()}


class Fault(Exception):
    def __init__(self, code):
        super().__init__(code)
        self.code = code


def child_path():
    system = {"Linux": "linux", "Windows": "windows", "Darwin": "darwin"}.get(platform.system(), "")
    machine = {"x86_64": "amd64", "amd64": "amd64", "aarch64": "arm64", "arm64": "arm64"}.get(platform.machine().lower(), "")
    name = "sheet-%s-%s%s" % (system, machine, ".exe" if system == "windows" else "")
    return os.path.join(os.path.dirname(os.path.abspath(__file__)), "lib", name)


class Child:
    def __init__(self):
        self.lock = threading.Lock()
        self.process = None
        self.asked = 0.0  # when the answer that is waited for was asked; zero when idle
        self.number = 0
        self.watch = None

    def start(self):
        path = child_path()
        if os.name != "nt":
            mode = os.stat(path).st_mode
            if not mode & stat.S_IXUSR:
                os.chmod(path, mode | stat.S_IXUSR | stat.S_IXGRP | stat.S_IXOTH)
        flags = getattr(subprocess, "CREATE_NO_WINDOW", 0)
        self.process = subprocess.Popen([path, "serve"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, creationflags=flags)
        if self.watch is None:
            self.watch = threading.Thread(target=self.watching, daemon=True)
            self.watch.start()
        answer = self.exchange({"fn": "APILEVEL", "args": []})
        if answer.get("value", 0) < LEVEL:
            raise Fault("#VALUE!")

    def stop(self):
        process, self.process = self.process, None
        if process is None:
            return
        process.kill()
        for pipe in (process.stdin, process.stdout):
            try:
                pipe.close()
            except OSError:
                pass  # closing sends once more what the dead child did not take
        process.wait()

    def watching(self):
        while True:
            time.sleep(1.0)
            asked, process = self.asked, self.process
            if asked and process is not None and time.monotonic() - asked > PATIENCE:
                process.kill()

    def exchange(self, request):
        self.number += 1
        request["id"] = self.number
        line = (json.dumps(request, allow_nan=False) + "\n").encode("utf-8")
        if self.process is None:
            raise OSError("no child")
        self.asked = time.monotonic()
        try:
            self.process.stdin.write(line)
            self.process.stdin.flush()
            answer = self.process.stdout.readline()
        finally:
            self.asked = 0.0
        if not answer.endswith(b"\n"):
            raise OSError("the child has gone")
        answer = json.loads(answer.decode("utf-8"))
        if answer.get("id") != self.number:
            raise OSError("answers out of step")
        return answer

    def ask(self, name, args):
        with self.lock:
            for attempt in range(4):
                try:
                    if self.process is None:
                        self.start()
                    return self.exchange({"fn": name, "args": args})
                except (OSError, ValueError):
                    self.stop()
                    if attempt == 3:
                        raise Fault("#VALUE!")


CHILD = Child()


def cell(value):
    if value is None or isinstance(value, str):
        return value
    if isinstance(value, bool):
        return 1.0 if value else 0.0
    if isinstance(value, (int, float)):
        if not math.isfinite(value):
            raise Fault("#NUM!")
        return value
    raise Fault("#VALUE!")


def clean(value):
    if isinstance(value, tuple):
        # A whole column is far more than any function takes.
        wide = max((len(row) for row in value), default=0)
        if len(value) > MOST_ROWS or wide > (MOST_ROWS if len(value) == 1 else MOST_COLUMNS):
            raise Fault("#VALUE!")
        return [[cell(v) for v in row] for row in value]
    return cell(value)


def call(name, args):
    sent = [clean(v) for v in args]
    while sent and sent[-1] is None:
        sent.pop()
    answer = CHILD.ask(name, sent)
    if "error" in answer:
        raise Fault(answer["error"])
    return answer["value"]


def error(code):
    return ERRORS.get(code, ERRORS["#VALUE!"])


def one(value):
    """What stands in one cell: blank ones stay blank, errors are errors."""
    if isinstance(value, dict):
        return error(value["error"])
    if isinstance(value, str):
        return value
    return "" if value is None else float(value)


def cells(name, args):
    """Rows of cells: one cell, numbers below each other, or a grid."""
    try:
        value = call(name, args)
        if not isinstance(value, list):
            value = [value]
        return tuple(tuple(one(v) for v in row) if isinstance(row, list) else (one(row),) for row in value)
    except Fault as fault:
        return ((error(fault.code),),)
    except Exception:
        return ((error("#VALUE!"),),)


# Help and arguments of every function by its method.
NAMES = {
{NAMES}}


class Functions:
    """One method for each function of the table."""
{METHODS}

class AddIn(unohelper.Base, Functions, XAddIn, XServiceInfo):
    def __init__(self, context):
        self.locale = uno.createUnoStruct("com.sun.star.lang.Locale")

    # XServiceInfo
    def getImplementationName(self):
        return IMPLEMENTATION

    def supportsService(self, name):
        return name in SERVICES

    def getSupportedServiceNames(self):
        return SERVICES

    # XLocalizable
    def setLocale(self, locale):
        self.locale = locale

    def getLocale(self):
        return self.locale

    # XAddIn
    def getProgrammaticFuntionName(self, display):
        for method in NAMES:
            if display.upper() == self.getDisplayFunctionName(method):
                return method
        return ""

    def getDisplayFunctionName(self, method):
        return IMPLEMENTATION + "." + method.upper() if method in NAMES else ""

    def getFunctionDescription(self, method):
        return NAMES[method][0] if method in NAMES else ""

    def getDisplayArgumentName(self, method, index):
        return self.argument(method, index)[0]

    def getArgumentDescription(self, method, index):
        return self.argument(method, index)[1]

    def argument(self, method, index):
        arguments = NAMES[method][1] if method in NAMES else ()
        return arguments[index] if 0 <= index < len(arguments) else ("", "")

    def getProgrammaticCategoryName(self, method):
        return "Add-In"

    def getDisplayCategoryName(self, method):
        return "Add-In"


def create(context):
    from org.coverwright.sheet import XShop

    class Shop(AddIn, XShop):
        pass

    return Shop(context)


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(create, IMPLEMENTATION, SERVICES)
`
