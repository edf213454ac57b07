# Generated from the function table; do not edit.
"""Spreadsheet functions behind SHOP: each call is one line to a child process and one line back."""
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

LEVEL = 2
IMPLEMENTATION = "SHOP"
SERVICES = (IMPLEMENTATION, "com.sun.star.sheet.AddIn")
MOST_ROWS = 2000
MOST_COLUMNS = 8
PATIENCE = 20.0  # seconds
CODES = {"#VALUE!": 519, "#NUM!": 503, "#DIV/0!": 532, "#N/A": 32767, "#NAME?": 525}


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
    "apiLevel": ("Level of the function table. A workbook made for a higher level than this one needs a newer add-in.", ()),
    "versionText": ("Name and level of the function table.", ()),
    "why": ("Says why a call has no value: the name of the function, then its arguments as they stand in the call. Empty when all is well. Of a column of answers the first that fails is told.", (("function", "name of the function, with or without SHOP. before it"), ("argument_1", "argument of the function; when left out: none"), ("argument_2", "argument of the function; when left out: none"), ("argument_3", "argument of the function; when left out: none"), ("argument_4", "argument of the function; when left out: none"), ("argument_5", "argument of the function; when left out: none"), ("argument_6", "argument of the function; when left out: none"), ("argument_7", "argument of the function; when left out: none"), ("argument_8", "argument of the function; when left out: none"), )),
    "readLengthIn": ("Reads a length as a shop writes it: 25 5/8 in, 2' 1 5/8\", 1 1/2 yd, 652 mm.", (("length_text", "a length with its unit"), )),
    "readLengthMm": ("Reads a length as a shop writes it and gives millimetres.", (("length_text", "a length with its unit"), )),
    "readAreaSqft": ("Reads an area: 48 sq ft, 4.5 m2.", (("area_text", "an area with its unit"), )),
    "readThicknessMm": ("Reads a leather thickness: 3 oz (1/64 in each), 12 irons, 1.2 mm.", (("thickness_text", "a thickness with its unit"), )),
    "fractionText": ("Writes inches as a mixed fraction: 25.625 as 25 5/8 in.", (("length_in", "a length, in inches"), ("parts", "finest fraction: 2, 4, 8, 16, 32 or 64; 1 for whole inches"), ("rounding", "nearest, up or down; when left out: nearest"), )),
    "feetInchText": ("Writes inches in feet and inches: 25.625 as 2' 1 5/8\".", (("length_in", "a length, in inches"), ("parts", "finest fraction: 2, 4, 8, 16, 32 or 64; 1 for whole inches"), ("rounding", "nearest, up or down; when left out: nearest"), )),
    "roundUpIn": ("Rounds a length up to a step, such as 1/8 in: nothing gets shorter. Exact, where a sheet's own rounding can miss a step.", (("length_in", "a length, in inches"), ("step_in", "the step, above zero, in inches"), )),
    "roundUpMm": ("Metric twin of ROUNDUPIN. Rounds a length up to a step, such as 1/8 in: nothing gets shorter. Exact, where a sheet's own rounding can miss a step.", (("length_mm", "a length, in millimetres"), ("step_mm", "the step, above zero, in millimetres"), )),
    "inToMm": ("Inches to millimetres (1 in = 25.4 mm).", (("length_in", "the figure to convert, in inches"), )),
    "mmToIn": ("Millimetres to inches.", (("length_mm", "the figure to convert, in millimetres"), )),
    "ydToM": ("Yards to metres (1 yd = 0.9144 m).", (("length_yd", "the figure to convert, in yards"), )),
    "mToYd": ("Metres to yards.", (("length_m", "the figure to convert, in metres"), )),
    "sqftToSqdm": ("Square feet of leather to square decimetres (1 sq ft = 9.290304 sq dm).", (("area_sqft", "the figure to convert, in square feet"), )),
    "sqdmToSqft": ("Square decimetres of leather to square feet.", (("area_sqdm", "the figure to convert, in square decimetres"), )),
    "ozToMm": ("Leather ounces to millimetres (1 oz of thickness = 1/64 in).", (("thickness_oz", "the figure to convert, in ounces"), )),
    "mmToOz": ("Millimetres to leather ounces.", (("thickness_mm", "the figure to convert, in millimetres"), )),
    "markedAreaSqft": ("Reads the area marked on a skin. The same mark means different areas, so the notation must be named.", (("mark", "the figures on the skin, such as 50.3 or 4/1"), ("notation", "tenths (50.3 is fifty and three tenths), quarters (4/1) or point quarters (50.3 is fifty and three quarters)"), )),
    "allowanceIn": ("The allowance usual for a finish, added outside the finished line of one edge.", (("finish", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), )),
    "allowanceMm": ("Metric twin of ALLOWANCEIN. The allowance usual for a finish, added outside the finished line of one edge.", (("finish", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), )),
    "allowanceBasisText": ("What the allowance usual for a finish is founded on.", (("finish", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), )),
    "cutSizeIn": ("Cut size of a panel in one direction: finished size less what it stretches, plus the allowance at both ends.", (("finished_in", "finished size, in inches"), ("first_in", "allowance at one end, in inches"), ("second_in", "allowance at the other, in inches"), ("stretch", "share taken out because the cover is pulled tight; when left out: 0"), )),
    "cutSizeMm": ("Metric twin of CUTSIZEIN. Cut size of a panel in one direction: finished size less what it stretches, plus the allowance at both ends.", (("finished_mm", "finished size, in millimetres"), ("first_mm", "allowance at one end, in millimetres"), ("second_mm", "allowance at the other, in millimetres"), ("stretch", "share taken out because the cover is pulled tight; when left out: 0"), )),
    "cutForFinishIn": ("Cut size of a panel in one direction with the allowances usual for the finish at both ends.", (("finished_in", "finished size, in inches"), ("first", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), ("second", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), )),
    "cutForFinishMm": ("Metric twin of CUTFORFINISHIN. Cut size of a panel in one direction with the allowances usual for the finish at both ends.", (("finished_mm", "finished size, in millimetres"), ("first", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), ("second", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), )),
    "leatherSeamIn": ("Size between the seam lines of a leather panel by the customary rule: 1/4 in taken out of every 10 in, in proportion, and nothing under 10 in: a panel of 10 in comes out 1/4 in shorter than one just under it. A sample of the hide is better: STRETCHSHARE.", (("finished_in", "finished size, in inches"), )),
    "leatherSeamMm": ("Metric twin of LEATHERSEAMIN. Size between the seam lines of a leather panel by the customary rule: 1/4 in taken out of every 10 in, in proportion, and nothing under 10 in: a panel of 10 in comes out 1/4 in shorter than one just under it. A sample of the hide is better: STRETCHSHARE.", (("finished_mm", "finished size, in millimetres"), )),
    "stretchShare": ("Share to take out of a panel, from a sample measured slack and pulled as tight as the cover will be.", (("slack_in", "length of the sample at rest, in inches"), ("pulled_in", "its length under the pull, in inches"), )),
    "stretchShareMetric": ("Metric twin of STRETCHSHARE. Share to take out of a panel, from a sample measured slack and pulled as tight as the cover will be.", (("slack_mm", "length of the sample at rest, in millimetres"), ("pulled_mm", "its length under the pull, in millimetres"), )),
    "easeShare": ("By how much one of two edges that are sewn together is longer than the other.", (("first_in", "seam line of one edge, in inches"), ("second_in", "seam line of the other, in inches"), )),
    "easeShareMetric": ("Metric twin of EASESHARE. By how much one of two edges that are sewn together is longer than the other.", (("first_mm", "seam line of one edge, in millimetres"), ("second_mm", "seam line of the other, in millimetres"), )),
    "easeText": ("Whether two edges of different length can be sewn together: flat, eased in, gathered or not. Limits from memory; sew a sample.", (("first_in", "seam line of one edge, in inches"), ("second_in", "seam line of the other, in inches"), ("goods", "loose woven, firm woven, pile, soft leather, firm leather, coated woven; when left out: firm woven"), )),
    "easeTextMetric": ("Metric twin of EASETEXT. Whether two edges of different length can be sewn together: flat, eased in, gathered or not. Limits from memory; sew a sample.", (("first_mm", "seam line of one edge, in millimetres"), ("second_mm", "seam line of the other, in millimetres"), ("goods", "loose woven, firm woven, pile, soft leather, firm leather, coated woven; when left out: firm woven"), )),
    "easeMarksIn": ("Where to mark the first edge so that the ease spreads evenly: distances from its start, one below the other (an array formula).", (("first_in", "seam line of one edge, in inches"), ("second_in", "seam line of the other, in inches"), ("spacing_in", "greatest distance between marks on the shorter edge, in inches"), )),
    "easeMarksMm": ("Metric twin of EASEMARKSIN. Where to mark the first edge so that the ease spreads evenly: distances from its start, one below the other (an array formula).", (("first_mm", "seam line of one edge, in millimetres"), ("second_mm", "seam line of the other, in millimetres"), ("spacing_mm", "greatest distance between marks on the shorter edge, in millimetres"), )),
    "weltStripIn": ("Width of the strip that covers a welt cord: pi x (cord + cloth) + two tails.", (("cord_in", "diameter of the cord, in inches"), ("tail_in", "from the cord to the raw edge, in inches; when left out: the allowance of a welted seam"), ("cloth_in", "thickness of the cloth, in inches; when left out: 0"), ("step_in", "step to round up to, in inches; when left out: no rounding"), )),
    "weltStripMm": ("Metric twin of WELTSTRIPIN. Width of the strip that covers a welt cord: pi x (cord + cloth) + two tails.", (("cord_mm", "diameter of the cord, in millimetres"), ("tail_mm", "from the cord to the raw edge, in millimetres; when left out: the allowance of a welted seam"), ("cloth_mm", "thickness of the cloth, in millimetres; when left out: 0"), ("step_mm", "step to round up to, in millimetres; when left out: no rounding"), )),
    "doubleWeltStripIn": ("Width of the strip for a double welt: twice that of a single one. Common practice.", (("single_in", "strip of a single welt, in inches"), )),
    "doubleWeltStripMm": ("Metric twin of DOUBLEWELTSTRIPIN. Width of the strip for a double welt: twice that of a single one. Common practice.", (("single_mm", "strip of a single welt, in millimetres"), )),
    "weltCutIn": ("Length of welt strip to cut for seams or closed rings: their lengths, 2 in each to finish the ends, and what the diagonal joins use up.", (("runs_in", "finished length of each run of welt, in inches"), ("strip_in", "width of the strip, in inches"), ("longest_in", "longest strip the goods allow, in inches; when left out: no limit"), )),
    "weltCutMm": ("Metric twin of WELTCUTIN. Length of welt strip to cut for seams or closed rings: their lengths, 2 in each to finish the ends, and what the diagonal joins use up.", (("runs_mm", "finished length of each run of welt, in millimetres"), ("strip_mm", "width of the strip, in millimetres"), ("longest_mm", "longest strip the goods allow, in millimetres; when left out: no limit"), )),
    "boxingWidthIn": ("Cut width of a boxing strip.", (("perimeter_in", "perimeter of the plate at the stitch line, in inches"), ("depth_in", "finished height of the boxing, in inches"), ("longest_in", "longest piece the goods allow; 0 for no limit, in inches"), ("seam_in", "seam allowance, in inches; when left out: that of a boxed seam"), )),
    "boxingWidthMm": ("Metric twin of BOXINGWIDTHIN. Cut width of a boxing strip.", (("perimeter_mm", "perimeter of the plate at the stitch line, in millimetres"), ("depth_mm", "finished height of the boxing, in millimetres"), ("longest_mm", "longest piece the goods allow; 0 for no limit, in millimetres"), ("seam_mm", "seam allowance, in millimetres; when left out: that of a boxed seam"), )),
    "boxingLengthIn": ("Cut length of all pieces of a boxing strip together, joins included.", (("perimeter_in", "perimeter of the plate at the stitch line, in inches"), ("depth_in", "finished height of the boxing, in inches"), ("longest_in", "longest piece the goods allow; 0 for no limit, in inches"), ("seam_in", "seam allowance, in inches; when left out: that of a boxed seam"), )),
    "boxingLengthMm": ("Metric twin of BOXINGLENGTHIN. Cut length of all pieces of a boxing strip together, joins included.", (("perimeter_mm", "perimeter of the plate at the stitch line, in millimetres"), ("depth_mm", "finished height of the boxing, in millimetres"), ("longest_mm", "longest piece the goods allow; 0 for no limit, in millimetres"), ("seam_mm", "seam allowance, in millimetres; when left out: that of a boxed seam"), )),
    "boxingJoinsIn": ("Where the joins of a boxing strip lie: distances round the stitch line from the middle of the back (an array formula).", (("perimeter_in", "perimeter of the plate at the stitch line, in inches"), ("depth_in", "finished height of the boxing, in inches"), ("longest_in", "longest piece the goods allow; 0 for no limit, in inches"), ("seam_in", "seam allowance, in inches; when left out: that of a boxed seam"), )),
    "boxingJoinsMm": ("Metric twin of BOXINGJOINSIN. Where the joins of a boxing strip lie: distances round the stitch line from the middle of the back (an array formula).", (("perimeter_mm", "perimeter of the plate at the stitch line, in millimetres"), ("depth_mm", "finished height of the boxing, in millimetres"), ("longest_mm", "longest piece the goods allow; 0 for no limit, in millimetres"), ("seam_mm", "seam allowance, in millimetres; when left out: that of a boxed seam"), )),
    "biasLengthIn": ("Length of the continuous bias strip that a rectangle of cloth gives, marked the better way round: width and height may change places.", (("width_in", "width of the cloth, in inches"), ("height_in", "its height, in inches"), ("strip_in", "cut width of the strip, in inches"), ("seam_in", "allowance of each tube seam, in inches; when left out: 0"), )),
    "biasLengthMm": ("Metric twin of BIASLENGTHIN. Length of the continuous bias strip that a rectangle of cloth gives, marked the better way round: width and height may change places.", (("width_mm", "width of the cloth, in millimetres"), ("height_mm", "its height, in millimetres"), ("strip_mm", "cut width of the strip, in millimetres"), ("seam_mm", "allowance of each tube seam, in millimetres; when left out: 0"), )),
    "biasSquareIn": ("Side of the square of cloth for a continuous bias strip of a length. Common practice.", (("length_in", "length of strip wanted, in inches"), ("strip_in", "cut width of the strip, in inches"), ("seam_in", "allowance of each tube seam, in inches; when left out: 0"), )),
    "biasSquareMm": ("Metric twin of BIASSQUAREIN. Side of the square of cloth for a continuous bias strip of a length. Common practice.", (("length_mm", "length of strip wanted, in millimetres"), ("strip_mm", "cut width of the strip, in millimetres"), ("seam_mm", "allowance of each tube seam, in millimetres; when left out: 0"), )),
    "tuftSpacingIn": ("Distance between two deep buttons on the cloth. The rules disagree; tuft a sample.", (("face_in", "distance on the finished face, in inches"), ("depth_in", "depth of the button below it, in inches"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftSpacingMm": ("Metric twin of TUFTSPACINGIN. Distance between two deep buttons on the cloth. The rules disagree; tuft a sample.", (("face_mm", "distance on the finished face, in millimetres"), ("depth_mm", "depth of the button below it, in millimetres"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftCutWidthIn": ("Width of cloth to cut for a deep-buttoned panel, with 1 in of tack edge.", (("width_in", "finished width of the panel, in inches"), ("height_in", "finished height, in inches"), ("across", "whole diamonds side by side"), ("down", "whole diamonds one above the other"), ("depth_in", "depth of the buttons below the face, in inches"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftCutWidthMm": ("Metric twin of TUFTCUTWIDTHIN. Width of cloth to cut for a deep-buttoned panel, with 1 in of tack edge.", (("width_mm", "finished width of the panel, in millimetres"), ("height_mm", "finished height, in millimetres"), ("across", "whole diamonds side by side"), ("down", "whole diamonds one above the other"), ("depth_mm", "depth of the buttons below the face, in millimetres"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftCutHeightIn": ("Height of cloth to cut for a deep-buttoned panel, with 1 in of tack edge.", (("width_in", "finished width of the panel, in inches"), ("height_in", "finished height, in inches"), ("across", "whole diamonds side by side"), ("down", "whole diamonds one above the other"), ("depth_in", "depth of the buttons below the face, in inches"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftCutHeightMm": ("Metric twin of TUFTCUTHEIGHTIN. Height of cloth to cut for a deep-buttoned panel, with 1 in of tack edge.", (("width_mm", "finished width of the panel, in millimetres"), ("height_mm", "finished height, in millimetres"), ("across", "whole diamonds side by side"), ("down", "whole diamonds one above the other"), ("depth_mm", "depth of the buttons below the face, in millimetres"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftButtons": ("Number of buttons of a deep-buttoned panel.", (("width_in", "finished width of the panel, in inches"), ("height_in", "finished height, in inches"), ("across", "whole diamonds side by side"), ("down", "whole diamonds one above the other"), ("depth_in", "depth of the buttons below the face, in inches"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftButtonsMetric": ("Metric twin of TUFTBUTTONS. Number of buttons of a deep-buttoned panel.", (("width_mm", "finished width of the panel, in millimetres"), ("height_mm", "finished height, in millimetres"), ("across", "whole diamonds side by side"), ("down", "whole diamonds one above the other"), ("depth_mm", "depth of the buttons below the face, in millimetres"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "channelCoverIn": ("Cloth across one filled channel that rises as an arc of a circle.", (("width_in", "width of the channel, in inches"), ("rise_in", "rise of the filling above the seams, in inches"), )),
    "channelCoverMm": ("Metric twin of CHANNELCOVERIN. Cloth across one filled channel that rises as an arc of a circle.", (("width_mm", "width of the channel, in millimetres"), ("rise_mm", "rise of the filling above the seams, in millimetres"), )),
    "pleatClothIn": ("Flat length of cloth for a pleated length.", (("kind", "knife pleat, box pleat or inverted pleat"), ("finished_in", "length when pleated, in inches"), ("count", "pleats in it"), ("underfold_in", "depth of each fold behind the face, in inches"), )),
    "pleatClothMm": ("Metric twin of PLEATCLOTHIN. Flat length of cloth for a pleated length.", (("kind", "knife pleat, box pleat or inverted pleat"), ("finished_mm", "length when pleated, in millimetres"), ("count", "pleats in it"), ("underfold_mm", "depth of each fold behind the face, in millimetres"), )),
    "ringIn": ("Seam line round a round or oval plate. Give one width for a circle.", (("width_in", "width of the plate, in inches"), ("depth_in", "depth of an oval, in inches; when left out: the width"), )),
    "ringMm": ("Metric twin of RINGIN. Seam line round a round or oval plate. Give one width for a circle.", (("width_mm", "width of the plate, in millimetres"), ("depth_mm", "depth of an oval, in millimetres; when left out: the width"), )),
    "bolsterGirthIn": ("Cut girth of the body of a bolster cover: pi x diameter and two seam allowances.", (("diameter_in", "diameter of the filling, in inches"), ("seam_in", "seam allowance, in inches; when left out: that of a plain seam"), )),
    "bolsterGirthMm": ("Metric twin of BOLSTERGIRTHIN. Cut girth of the body of a bolster cover: pi x diameter and two seam allowances.", (("diameter_mm", "diameter of the filling, in millimetres"), ("seam_mm", "seam allowance, in millimetres; when left out: that of a plain seam"), )),
    "cushionCutsIn": ("Cloth of a boxed cushion with a zip panel at its back: plates, boxing, zip panel and welt as they are cut. One row for each kind of piece: what it is, its cut size across the goods and along them, strips lying across, and the count (an array formula). It is a range of pieces for YARDAGEYD and GOODSCOST as it stands.", (("width_in", "finished width of the plate, seam to seam, in inches"), ("depth_in", "its depth from front to back, in inches"), ("thickness_in", "finished height of the boxing, in inches"), ("cord_in", "diameter of the cord of a welt round both plates, in inches; when left out: no welt"), ("longest_in", "longest strip the goods allow, such as their width, in inches; when left out: no limit"), ("seam_in", "seam allowance, that of the zip apart, in inches; when left out: 1/2 in"), )),
    "cushionCutsMm": ("Metric twin of CUSHIONCUTSIN. Cloth of a boxed cushion with a zip panel at its back: plates, boxing, zip panel and welt as they are cut. One row for each kind of piece: what it is, its cut size across the goods and along them, strips lying across, and the count (an array formula). It is a range of pieces for YARDAGEYD and GOODSCOST as it stands.", (("width_mm", "finished width of the plate, seam to seam, in millimetres"), ("depth_mm", "its depth from front to back, in millimetres"), ("thickness_mm", "finished height of the boxing, in millimetres"), ("cord_mm", "diameter of the cord of a welt round both plates, in millimetres; when left out: no welt"), ("longest_mm", "longest strip the goods allow, such as their width, in millimetres; when left out: no limit"), ("seam_mm", "seam allowance, that of the zip apart, in millimetres; when left out: 1/2 in"), )),
    "cushionFoamIn": ("Foam of a boxed cushion in one row: width, depth and thickness of the core, larger than the cover by the take-up of the fit (an array formula of three cells).", (("width_in", "finished width of the plate, seam to seam, in inches"), ("depth_in", "its depth from front to back, in inches"), ("thickness_in", "finished height of the boxing, in inches"), ("fit", "how tight the cover sits: snug fit, firm fit, wrapped fit, neutral fit; when left out: snug fit"), )),
    "cushionFoamMm": ("Metric twin of CUSHIONFOAMIN. Foam of a boxed cushion in one row: width, depth and thickness of the core, larger than the cover by the take-up of the fit (an array formula of three cells).", (("width_mm", "finished width of the plate, seam to seam, in millimetres"), ("depth_mm", "its depth from front to back, in millimetres"), ("thickness_mm", "finished height of the boxing, in millimetres"), ("fit", "how tight the cover sits: snug fit, firm fit, wrapped fit, neutral fit; when left out: snug fit"), )),
    "cushionZipIn": ("Length of zip to cut for a boxed cushion, through the margins at its ends. It follows the zip panel, whose length the longest strip sways: give what CUSHIONCUTSIN is given.", (("width_in", "finished width of the plate, seam to seam, in inches"), ("depth_in", "its depth from front to back, in inches"), ("thickness_in", "finished height of the boxing, in inches"), ("cord_in", "diameter of the cord of a welt round both plates, in inches; when left out: no welt"), ("longest_in", "longest strip the goods allow, such as their width, in inches; when left out: no limit"), ("seam_in", "seam allowance, that of the zip apart, in inches; when left out: 1/2 in"), )),
    "cushionZipMm": ("Metric twin of CUSHIONZIPIN. Length of zip to cut for a boxed cushion, through the margins at its ends. It follows the zip panel, whose length the longest strip sways: give what CUSHIONCUTSIN is given.", (("width_mm", "finished width of the plate, seam to seam, in millimetres"), ("depth_mm", "its depth from front to back, in millimetres"), ("thickness_mm", "finished height of the boxing, in millimetres"), ("cord_mm", "diameter of the cord of a welt round both plates, in millimetres; when left out: no welt"), ("longest_mm", "longest strip the goods allow, such as their width, in millimetres; when left out: no limit"), ("seam_mm", "seam allowance, that of the zip apart, in millimetres; when left out: 1/2 in"), )),
    "cushionSewnYd": ("Length of stitching of a boxed cushion, every row of it.", (("width_in", "finished width of the plate, seam to seam, in inches"), ("depth_in", "its depth from front to back, in inches"), ("thickness_in", "finished height of the boxing, in inches"), ("cord_in", "diameter of the cord of a welt round both plates, in inches; when left out: no welt"), ("longest_in", "longest strip the goods allow, such as their width, in inches; when left out: no limit"), ("seam_in", "seam allowance, that of the zip apart, in inches; when left out: 1/2 in"), )),
    "cushionSewnM": ("Metric twin of CUSHIONSEWNYD. Length of stitching of a boxed cushion, every row of it.", (("width_mm", "finished width of the plate, seam to seam, in millimetres"), ("depth_mm", "its depth from front to back, in millimetres"), ("thickness_mm", "finished height of the boxing, in millimetres"), ("cord_mm", "diameter of the cord of a welt round both plates, in millimetres; when left out: no welt"), ("longest_mm", "longest strip the goods allow, such as their width, in millimetres; when left out: no limit"), ("seam_mm", "seam allowance, that of the zip apart, in millimetres; when left out: 1/2 in"), )),
    "gatherClothIn": ("Flat length of cloth that is gathered to a length: length x fullness.", (("finished_in", "length when gathered, in inches"), ("fullness", "cloth over seam, 1 to 10; twice is usual"), )),
    "gatherClothMm": ("Metric twin of GATHERCLOTHIN. Flat length of cloth that is gathered to a length: length x fullness.", (("finished_mm", "length when gathered, in millimetres"), ("fullness", "cloth over seam, 1 to 10; twice is usual"), )),
    "gatheredSkirtIn": ("Cloth of a skirt gathered all round. With a plain seam at the top and a double hem. One row for each kind of piece: what it is, its cut size across the goods and along them, strips lying across, and the count (an array formula). It is a range of pieces for YARDAGEYD and GOODSCOST as it stands.", (("base_in", "length of the seam it hangs from, in inches"), ("drop_in", "finished depth, in inches"), ("fullness", "cloth over seam, 1 to 10; twice is usual"), ("longest_in", "longest piece the goods allow, such as their width, in inches; when left out: no limit"), )),
    "gatheredSkirtMm": ("Metric twin of GATHEREDSKIRTIN. Cloth of a skirt gathered all round. With a plain seam at the top and a double hem. One row for each kind of piece: what it is, its cut size across the goods and along them, strips lying across, and the count (an array formula). It is a range of pieces for YARDAGEYD and GOODSCOST as it stands.", (("base_mm", "length of the seam it hangs from, in millimetres"), ("drop_mm", "finished depth, in millimetres"), ("fullness", "cloth over seam, 1 to 10; twice is usual"), ("longest_mm", "longest piece the goods allow, such as their width, in millimetres; when left out: no limit"), )),
    "pleatedSkirtIn": ("Cloth of a skirt pleated all round. With a plain seam at the top and a double hem. One row for each kind of piece: what it is, its cut size across the goods and along them, strips lying across, and the count (an array formula). It is a range of pieces for YARDAGEYD and GOODSCOST as it stands.", (("kind", "knife pleat, box pleat or inverted pleat"), ("base_in", "length of the seam it hangs from, in inches"), ("drop_in", "finished depth, in inches"), ("count", "pleats all round"), ("underfold_in", "depth of each fold behind the face, in inches"), ("longest_in", "longest piece the goods allow, such as their width, in inches; when left out: no limit"), )),
    "pleatedSkirtMm": ("Metric twin of PLEATEDSKIRTIN. Cloth of a skirt pleated all round. With a plain seam at the top and a double hem. One row for each kind of piece: what it is, its cut size across the goods and along them, strips lying across, and the count (an array formula). It is a range of pieces for YARDAGEYD and GOODSCOST as it stands.", (("kind", "knife pleat, box pleat or inverted pleat"), ("base_mm", "length of the seam it hangs from, in millimetres"), ("drop_mm", "finished depth, in millimetres"), ("count", "pleats all round"), ("underfold_mm", "depth of each fold behind the face, in millimetres"), ("longest_mm", "longest piece the goods allow, such as their width, in millimetres; when left out: no limit"), )),
    "kickPleatSkirtIn": ("Cloth of a plain skirt with a pleat at each corner: panels whose ends turn back, and an underlay for each corner. With a plain seam at the top and a double hem. One row for each kind of piece: what it is, its cut size across the goods and along them, strips lying across, and the count (an array formula). It is a range of pieces for YARDAGEYD and GOODSCOST as it stands.", (("sides_in", "length of each panel between corners, in inches"), ("drop_in", "finished depth, in inches"), )),
    "kickPleatSkirtMm": ("Metric twin of KICKPLEATSKIRTIN. Cloth of a plain skirt with a pleat at each corner: panels whose ends turn back, and an underlay for each corner. With a plain seam at the top and a double hem. One row for each kind of piece: what it is, its cut size across the goods and along them, strips lying across, and the count (an array formula). It is a range of pieces for YARDAGEYD and GOODSCOST as it stands.", (("sides_mm", "length of each panel between corners, in millimetres"), ("drop_mm", "finished depth, in millimetres"), )),
    "sumAreaSqft": ("Area of a list of pieces.", (("pieces_in", "one row for each piece: width across the goods, length and count, with or without a name before them; sizes in inches"), )),
    "sumAreaSqdm": ("Metric twin of SUMAREASQFT. Area of a list of pieces.", (("pieces_mm", "one row for each piece: width across the goods, length and count, with or without a name before them; sizes in millimetres"), )),
    "buyAreaSqft": ("Leather to buy when a share of it is lost: net / (1 - waste). A rule of thumb.", (("net_sqft", "area of the panels, in square feet"), ("waste", "share that is lost, up to 90 %; a third of whole hides is customary"), )),
    "buyAreaSqdm": ("Metric twin of BUYAREASQFT. Leather to buy when a share of it is lost: net / (1 - waste). A rule of thumb.", (("net_sqdm", "area of the panels, in square decimetres"), ("waste", "share that is lost, up to 90 %; a third of whole hides is customary"), )),
    "hidesToBuy": ("Whole hides to buy. A rule of thumb: lay the panels out before cutting.", (("net_sqft", "area of the panels, in square feet"), ("hide_sqft", "area of one hide, 1 to 100 sq ft, in square feet"), ("waste", "share that is lost, up to 90 %"), )),
    "hidesToBuyMetric": ("Metric twin of HIDESTOBUY. Whole hides to buy. A rule of thumb: lay the panels out before cutting.", (("net_sqdm", "area of the panels, in square decimetres"), ("hide_sqdm", "area of one hide, 1 to 100 sq ft, in square decimetres"), ("waste", "share that is lost, up to 90 %"), )),
    "hidesByLayout": ("Whole hides for a list of pieces, laid out by a short search on hides of a usual shape, each piece at any angle. Flaws, grain and stretch are not known: lay the panels out before cutting.", (("pieces_in", "one row for each piece: width across the goods, length and count, with or without a name before them; sizes in inches"), ("hide_sqft", "area of one hide, in square feet"), ("kind", "whole hide, side, shoulder, bend, belly, calf, goat, sheep; when left out: whole hide"), )),
    "hidesByLayoutMetric": ("Metric twin of HIDESBYLAYOUT. Whole hides for a list of pieces, laid out by a short search on hides of a usual shape, each piece at any angle. Flaws, grain and stretch are not known: lay the panels out before cutting.", (("pieces_mm", "one row for each piece: width across the goods, length and count, with or without a name before them; sizes in millimetres"), ("hide_sqdm", "area of one hide, in square decimetres"), ("kind", "whole hide, side, shoulder, bend, belly, calf, goat, sheep; when left out: whole hide"), )),
    "leatherForClothSqft": ("Leather that replaces a length of cloth: length x width / yield. 75 % gives the customary 18 sq ft for a yard of 54 in goods.", (("length_yd", "length of cloth, in yards"), ("width_in", "its width, in inches"), ("yield_share", "share of a hide that ends in the work"), )),
    "leatherForClothSqdm": ("Metric twin of LEATHERFORCLOTHSQFT. Leather that replaces a length of cloth: length x width / yield. 75 % gives the customary 18 sq ft for a yard of 54 in goods.", (("length_m", "length of cloth, in metres"), ("width_mm", "its width, in millimetres"), ("yield_share", "share of a hide that ends in the work"), )),
    "repeatLengthIn": ("Length to cut so that a matched pattern starts anew: whole repeats.", (("need_in", "length needed, in inches"), ("repeat_in", "vertical repeat; 0 for plain goods, in inches"), )),
    "repeatLengthMm": ("Metric twin of REPEATLENGTHIN. Length to cut so that a matched pattern starts anew: whole repeats.", (("need_mm", "length needed, in millimetres"), ("repeat_mm", "vertical repeat; 0 for plain goods, in millimetres"), )),
    "yardageYd": ("Length of cloth to order for a list of pieces, laid out by a short search with every piece on the repeat, and the usual margin to square the ends and for flaws. A work order searches longer.", (("pieces_in", "one row for each piece: width across the goods, length and count, with or without a name before them; sizes in inches"), ("roll_width_in", "width of the goods, 10 in to 5 m, in inches"), ("repeat_in", "vertical repeat, in inches; when left out: plain goods"), ("step_yd", "step the seller cuts to, in yards; when left out: none"), ("selvage_in", "edge on each side that is not used, in inches; when left out: 0"), )),
    "yardageM": ("Metric twin of YARDAGEYD. Length of cloth to order for a list of pieces, laid out by a short search with every piece on the repeat, and the usual margin to square the ends and for flaws. A work order searches longer.", (("pieces_mm", "one row for each piece: width across the goods, length and count, with or without a name before them; sizes in millimetres"), ("roll_width_mm", "width of the goods, 10 in to 5 m, in millimetres"), ("repeat_mm", "vertical repeat, in millimetres; when left out: plain goods"), ("step_m", "step the seller cuts to, in metres; when left out: none"), ("selvage_mm", "edge on each side that is not used, in millimetres; when left out: 0"), )),
    "widthByChartYd": ("Length of goods of another width by the customary chart, whose columns are 36, 39, 41, 45, 50, 54, 60 and 66 in.", (("length_yd", "length of the goods known, in yards"), ("from_in", "their width, in inches"), ("to_in", "width of the others, in inches"), )),
    "widthByAreaYd": ("Length of goods of another width with the same area. It ignores how pieces fit across.", (("length_yd", "length of the goods known, in yards"), ("from_in", "their width, in inches"), ("to_in", "width of the others, in inches"), )),
    "widthByAreaM": ("Metric twin of WIDTHBYAREAYD. Length of goods of another width with the same area. It ignores how pieces fit across.", (("length_m", "length of the goods known, in metres"), ("from_mm", "their width, in millimetres"), ("to_mm", "width of the others, in millimetres"), )),
    "patternedYd": ("Length of patterned goods for a length of plain ones, by the customary shares. A layout is better.", (("plain_yd", "length of plain goods, in yards"), ("width_in", "width, 50 in or more, in inches"), ("repeat_in", "vertical repeat, in inches"), ("across_in", "horizontal repeat, in inches; when left out: 0"), )),
    "patternedM": ("Metric twin of PATTERNEDYD. Length of patterned goods for a length of plain ones, by the customary shares. A layout is better.", (("plain_m", "length of plain goods, in metres"), ("width_mm", "width, 50 in or more, in millimetres"), ("repeat_mm", "vertical repeat, in millimetres"), ("across_mm", "horizontal repeat, in millimetres; when left out: 0"), )),
    "nailCount": ("Decorative nails along edges, one on every corner, the others spaced evenly and never wider.", (("sides_in", "length of each side, corner to corner, in inches"), ("head_in", "diameter of the head, in inches"), ("pitch_in", "widest distance from nail to nail, in inches; when left out: head to head"), )),
    "nailCountMetric": ("Metric twin of NAILCOUNT. Decorative nails along edges, one on every corner, the others spaced evenly and never wider.", (("sides_mm", "length of each side, corner to corner, in millimetres"), ("head_mm", "diameter of the head, in millimetres"), ("pitch_mm", "widest distance from nail to nail, in millimetres; when left out: head to head"), )),
    "webbingIn": ("Length of webbing for an opening, woven both ways, with gaps of 1 in at most and 3 in held at each end.", (("width_in", "width of the opening, in inches"), ("depth_in", "its depth, in inches"), ("strip_in", "width of the webbing, in inches; when left out: 3 1/2 in"), )),
    "webbingMm": ("Metric twin of WEBBINGIN. Length of webbing for an opening, woven both ways, with gaps of 1 in at most and 3 in held at each end.", (("width_mm", "width of the opening, in millimetres"), ("depth_mm", "its depth, in millimetres"), ("strip_mm", "width of the webbing, in millimetres; when left out: 3 1/2 in"), )),
    "stapleCount": ("Staples along edges: one at each end of an edge and the rest at the pitch or closer.", (("edges_in", "length of each stapled edge, in inches"), ("pitch_in", "from staple to staple, in inches; when left out: 1 in"), )),
    "stapleCountMetric": ("Metric twin of STAPLECOUNT. Staples along edges: one at each end of an edge and the rest at the pitch or closer.", (("edges_mm", "length of each stapled edge, in millimetres"), ("pitch_mm", "from staple to staple, in millimetres; when left out: 1 in"), )),
    "stapleLegIn": ("Leg of the staple for layers on a rail: the shortest usual one that bites deep enough. Refused where it would come through.", (("layers_in", "thickness of everything under the crown, in inches"), ("rail_in", "thickness of the rail, in inches"), ("bite_in", "wanted depth in the wood, in inches; when left out: 1/4 in"), )),
    "stapleLegMm": ("Metric twin of STAPLELEGIN. Leg of the staple for layers on a rail: the shortest usual one that bites deep enough. Refused where it would come through.", (("layers_mm", "thickness of everything under the crown, in millimetres"), ("rail_mm", "thickness of the rail, in millimetres"), ("bite_mm", "wanted depth in the wood, in millimetres; when left out: 1/4 in"), )),
    "zipChainIn": ("Zip chain for openings, with 1 in beyond each end.", (("openings_in", "finished length of each opening, in inches"), )),
    "zipChainMm": ("Metric twin of ZIPCHAININ. Zip chain for openings, with 1 in beyond each end.", (("openings_mm", "finished length of each opening, in millimetres"), )),
    "zipSliders": ("Sliders for zips cut from a chain: one on each, two on openings above 48 in.", (("openings_in", "finished length of each opening, in inches"), )),
    "zipSlidersMetric": ("Metric twin of ZIPSLIDERS. Sliders for zips cut from a chain: one on each, two on openings above 48 in.", (("openings_mm", "finished length of each opening, in millimetres"), )),
    "battingSqft": ("Batting for a block of foam, over both faces and the front edge. Custom of the trade.", (("length_in", "length of the block, in inches"), ("width_in", "its width, in inches"), ("thickness_in", "its thickness, in inches"), ("layers", "1 to 4; when left out: 1"), ("overlap_in", "where ends meet or tuck in, up to 6 in, in inches; when left out: 1 in"), )),
    "battingSqdm": ("Metric twin of BATTINGSQFT. Batting for a block of foam, over both faces and the front edge. Custom of the trade.", (("length_mm", "length of the block, in millimetres"), ("width_mm", "its width, in millimetres"), ("thickness_mm", "its thickness, in millimetres"), ("layers", "1 to 4; when left out: 1"), ("overlap_mm", "where ends meet or tuck in, up to 6 in, in millimetres; when left out: 1 in"), )),
    "battingCutIn": ("Batting for a block of foam in one row: along the length of the block, and over its faces and the front edge, each layer (an array formula of two cells).", (("length_in", "length of the block, in inches"), ("width_in", "its width, in inches"), ("thickness_in", "its thickness, in inches"), ("layers", "1 to 4; when left out: 1"), ("overlap_in", "where ends meet or tuck in, up to 6 in, in inches; when left out: 1 in"), )),
    "battingCutMm": ("Metric twin of BATTINGCUTIN. Batting for a block of foam in one row: along the length of the block, and over its faces and the front edge, each layer (an array formula of two cells).", (("length_mm", "length of the block, in millimetres"), ("width_mm", "its width, in millimetres"), ("thickness_mm", "its thickness, in millimetres"), ("layers", "1 to 4; when left out: 1"), ("overlap_mm", "where ends meet or tuck in, up to 6 in, in millimetres; when left out: 1 in"), )),
    "battingCrownIn": ("What batting adds to the height of the middle under the cover, both faces together, pressed to half its loft. Custom of the trade.", (("batting", "weight of a square yard: 1/2 oz, 3/4 oz, 1 oz, 1 1/2 oz"), ("layers", "1 to 4; when left out: 1"), )),
    "battingCrownMm": ("Metric twin of BATTINGCROWNIN. What batting adds to the height of the middle under the cover, both faces together, pressed to half its loft. Custom of the trade.", (("batting", "weight of a square yard: 1/2 oz, 3/4 oz, 1 oz, 1 1/2 oz"), ("layers", "1 to 4; when left out: 1"), )),
    "threadSize": ("Trade number of a thread size in any naming.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), )),
    "threadTex": ("Count of the finished thread; the tex on the label is about a tenth lower.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), )),
    "countToTex": ("Converts a yarn count of any system to tex.", (("count", "the count"), ("system", "tex, dtex, den, Nm, Ne, yd/lb, metric ticket, cotton ticket, trade number"), )),
    "texToCount": ("Converts tex to a yarn count of any system.", (("count_tex", "the count in tex"), ("system", "tex, dtex, den, Nm, Ne, yd/lb, metric ticket, cotton ticket, trade number"), )),
    "threadForText": ("Fibre and size of thread to start with for goods and layers.", (("goods", "light woven, woven, canvas, vinyl, leather, heavy leather"), ("layers", "layers the needle passes, 1 to 20"), )),
    "needleForText": ("Needle to start with for goods and layers, by metric size and number.", (("goods", "light woven, woven, canvas, vinyl, leather, heavy leather"), ("layers", "layers the needle passes, 1 to 20"), )),
    "needlesText": ("Range of needles for a thread size in goods.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), ("goods", "light woven, woven, canvas, vinyl, leather, heavy leather"), )),
    "stitchLengthMm": ("Length of one stitch: 25.4 mm / stitches per inch.", (("stitches_per_inch", "1 to 60"), )),
    "threadUseYd": ("Needle and bobbin thread of a seam by the geometry of its stitch, without tails and waste. On the high side.", (("seam_in", "length of the seam, in inches"), ("thickness_mm", "thickness of all layers, in millimetres"), ("stitches_per_inch", "1 to 60"), ("stitch", "standard number: 301 lockstitch, 401 chainstitch; when left out: 301"), )),
    "threadUseM": ("Metric twin of THREADUSEYD. Needle and bobbin thread of a seam by the geometry of its stitch, without tails and waste. On the high side.", (("seam_mm", "length of the seam, in millimetres"), ("thickness_mm", "thickness of all layers, in millimetres"), ("stitches_per_inch", "1 to 60"), ("stitch", "standard number: 301 lockstitch, 401 chainstitch; when left out: 301"), )),
    "coneLengthYd": ("Thread on a cone of a net weight.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), ("net_oz", "net weight of the thread, in ounces"), )),
    "coneLengthM": ("Metric twin of CONELENGTHYD. Thread on a cone of a net weight.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), ("net_g", "net weight of the thread, in grams"), )),
    "seamStrengthLbfIn": ("Estimate of what the stitching of a lockstitch seam carries across its line, with the cautious strength of the thread. No leave to sew safety gear.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), ("fibre", "nylon or polyester"), ("stitches_per_inch", "1 to 60"), )),
    "seamStrengthNCm": ("Metric twin of SEAMSTRENGTHLBFIN. Estimate of what the stitching of a lockstitch seam carries across its line, with the cautious strength of the thread. No leave to sew safety gear.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), ("fibre", "nylon or polyester"), ("stitches_per_inch", "1 to 60"), )),
    "boardFeet": ("Board feet of a block of foam: 144 cubic inches each.", (("length_in", "length of the block, in inches"), ("width_in", "its width, in inches"), ("thickness_in", "its thickness, in inches"), ("count", "blocks alike; when left out: 1"), )),
    "foamLitres": ("Metric twin of BOARDFEET. Board feet of a block of foam: 144 cubic inches each.", (("length_mm", "length of the block, in millimetres"), ("width_mm", "its width, in millimetres"), ("thickness_mm", "its thickness, in millimetres"), ("count", "blocks alike; when left out: 1"), )),
    "foamDensityPcf": ("Density of a block of foam that was weighed.", (("mass_lb", "weight of the block, in pounds"), ("length_in", "length of the block, in inches"), ("width_in", "its width, in inches"), ("thickness_in", "its thickness, in inches"), )),
    "foamDensityKgm3": ("Metric twin of FOAMDENSITYPCF. Density of a block of foam that was weighed.", (("mass_kg", "weight of the block, in kilograms"), ("length_mm", "length of the block, in millimetres"), ("width_mm", "its width, in millimetres"), ("thickness_mm", "its thickness, in millimetres"), )),
    "foamMassLb": ("Weight of a block of foam.", (("length_in", "length of the block, in inches"), ("width_in", "its width, in inches"), ("thickness_in", "its thickness, in inches"), ("density_pcf", "density of the foam, in pounds per cubic foot"), )),
    "foamMassKg": ("Metric twin of FOAMMASSLB. Weight of a block of foam.", (("length_mm", "length of the block, in millimetres"), ("width_mm", "its width, in millimetres"), ("thickness_mm", "its thickness, in millimetres"), ("density_kgm3", "density of the foam, in kilograms per cubic metre"), )),
    "sheetThicknessIn": ("Thickness of sheet for a boxing: down by a quarter inch or less over a whole inch, else up. Common practice.", (("boxing_in", "finished height of the boxing, 1 to 24 in, in inches"), )),
    "sheetThicknessMm": ("Metric twin of SHEETTHICKNESSIN. Thickness of sheet for a boxing: down by a quarter inch or less over a whole inch, else up. Common practice.", (("boxing_mm", "finished height of the boxing, 1 to 24 in, in millimetres"), )),
    "supportFactor": ("IFD at 65 % over IFD at 25 %.", (("ifd25_lbf", "IFD (ILD) at 25 %, in pounds of force"), ("ifd65_lbf", "IFD at 65 %, in pounds of force"), )),
    "supportFactorMetric": ("Metric twin of SUPPORTFACTOR. IFD at 65 % over IFD at 25 %.", (("ifd25_n", "IFD (ILD) at 25 %, in newtons"), ("ifd65_n", "IFD at 65 %, in newtons"), )),
    "ildLowLbf": ("Softest firmness any source names for the use. A rule of thumb: a trial sit decides.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_in", "thickness of the foam, 1/2 to 12 in, in inches"), ("base", "what it lies on: board, webbing, springs"), )),
    "ildLowN": ("Metric twin of ILDLOWLBF. Softest firmness any source names for the use. A rule of thumb: a trial sit decides.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_mm", "thickness of the foam, 1/2 to 12 in, in millimetres"), ("base", "what it lies on: board, webbing, springs"), )),
    "ildHighLbf": ("Firmest firmness any source names for the use. A rule of thumb: a trial sit decides.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_in", "thickness of the foam, 1/2 to 12 in, in inches"), ("base", "what it lies on: board, webbing, springs"), )),
    "ildHighN": ("Metric twin of ILDHIGHLBF. Firmest firmness any source names for the use. A rule of thumb: a trial sit decides.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_mm", "thickness of the foam, 1/2 to 12 in, in millimetres"), ("base", "what it lies on: board, webbing, springs"), )),
    "ildTargetLbf": ("Firmness to ask for. A rule of thumb: a trial sit decides. Mind the fire rules of the place.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_in", "thickness of the foam, 1/2 to 12 in, in inches"), ("base", "what it lies on: board, webbing, springs"), )),
    "ildTargetN": ("Metric twin of ILDTARGETLBF. Firmness to ask for. A rule of thumb: a trial sit decides. Mind the fire rules of the place.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_mm", "thickness of the foam, 1/2 to 12 in, in millimetres"), ("base", "what it lies on: board, webbing, springs"), )),
    "foamDensityLowPcf": ("Least density to ask for. Mind the fire rules of the place.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_in", "thickness of the foam, 1/2 to 12 in, in inches"), ("base", "what it lies on: board, webbing, springs"), )),
    "foamDensityLowKgm3": ("Metric twin of FOAMDENSITYLOWPCF. Least density to ask for. Mind the fire rules of the place.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_mm", "thickness of the foam, 1/2 to 12 in, in millimetres"), ("base", "what it lies on: board, webbing, springs"), )),
    "sinkIn": ("How far a sitter presses the foam in, on a rigid base. An estimate.", (("thickness_in", "thickness of the foam, in inches"), ("ifd25_lbf", "IFD (ILD) at 25 %, in pounds of force"), ("ifd65_lbf", "IFD at 65 %; 0 when not known: 1.8 times that at 25 % is taken, in pounds of force"), ("sitter_lb", "weight of the sitter, 22 to 551 lb, in pounds"), )),
    "sinkMm": ("Metric twin of SINKIN. How far a sitter presses the foam in, on a rigid base. An estimate.", (("thickness_mm", "thickness of the foam, in millimetres"), ("ifd25_n", "IFD (ILD) at 25 %, in newtons"), ("ifd65_n", "IFD at 65 %; 0 when not known: 1.8 times that at 25 % is taken, in newtons"), ("sitter_kg", "weight of the sitter, 22 to 551 lb, in kilograms"), )),
    "bottomsOut": ("1 when the sitter presses the foam to the end of its curve (65 %), else 0. An estimate.", (("thickness_in", "thickness of the foam, in inches"), ("ifd25_lbf", "IFD (ILD) at 25 %, in pounds of force"), ("ifd65_lbf", "IFD at 65 %; 0 when not known: 1.8 times that at 25 % is taken, in pounds of force"), ("sitter_lb", "weight of the sitter, 22 to 551 lb, in pounds"), )),
    "bottomsOutMetric": ("Metric twin of BOTTOMSOUT. 1 when the sitter presses the foam to the end of its curve (65 %), else 0. An estimate.", (("thickness_mm", "thickness of the foam, in millimetres"), ("ifd25_n", "IFD (ILD) at 25 %, in newtons"), ("ifd65_n", "IFD at 65 %; 0 when not known: 1.8 times that at 25 % is taken, in newtons"), ("sitter_kg", "weight of the sitter, 22 to 551 lb, in kilograms"), )),
    "markupPrice": ("Price for a cost with a markup on the cost, rounded half up.", (("cost", "what it costs, from 0"), ("markup", "0 % to 300 % of the cost"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "marginPrice": ("Price for a cost that leaves a margin of the price, rounded half up.", (("cost", "what it costs, from 0"), ("margin", "0 % to 99 % of the price"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "marginOf": ("Share of the price that is not cost: (price - cost) / price. Under zero where it is sold at a loss.", (("cost", "what it costs, from 0"), ("price", "what it is sold for, from 0"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "markupOf": ("What a price adds to the cost: (price - cost) / cost. Under zero where it is sold at a loss.", (("cost", "what it costs, from 0"), ("price", "what it is sold for, from 0"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "markupToMargin": ("The margin that a markup leaves: m / (1 + m).", (("markup", "0 % to 300 %"), )),
    "marginToMarkup": ("The markup that leaves a margin: g / (1 - g).", (("margin", "0 % to 99 %"), )),
    "shopRate": ("Price of an hour at the bench: wage with its burden, a share of the overhead, and a margin. Each part is rounded half up.", (("wage", "hourly wage"), ("burden", "on top of the wage, 0 % to 300 %"), ("overhead", "overhead of a year"), ("sold_hours", "hours of a year that can be sold, all workers, in hours"), ("margin", "margin of the rate that is charged"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "labourPrice": ("Price of time at a rate, rounded half up.", (("time_hours", "time; a thousandth of a second is the least step, in hours"), ("rate", "rate of an hour"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "learningHours": ("Time of several pieces alike when each doubling of their number leaves a share of the time of one (unit model).", (("first_hours", "time of the first piece, in hours"), ("count", "pieces, 1 or more"), ("rate", "50 % to 100 %; take it from your own bench"), )),
    "roundAmount": ("Rounds an amount to a step, such as 0.05.", (("amount", "the amount"), ("step", "the step, above zero"), ("rounding", "half-up, half-even, half-down, up, down, ceiling or floor; when left out: half-up"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "allocate": ("Splits an amount over weights so that the parts add up to it to the last minor unit: one part below the other (an array formula).", (("whole", "amount to split"), ("weights", "numbers from 0, such as the amounts of lines, or minutes"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "split": ("Splits an amount into equal parts that add up to it, the larger ones first (an array formula).", (("whole", "amount to split"), ("count", "parts, 1 to 2000"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "goodsCost": ("What a list of pieces costs cut from a roll: laid out by a short search, ordered to the seller's step and priced.", (("pieces_in", "one row for each piece: width across the goods, length and count, with or without a name before them; sizes in inches"), ("roll_width_in", "width of the goods, in inches"), ("price_per_yd", "price of one yard or metre of the goods, as named"), ("repeat_in", "vertical repeat, in inches; when left out: plain goods"), ("step_yd", "step the seller cuts to, in yards; when left out: none"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "goodsCostMetric": ("Metric twin of GOODSCOST. What a list of pieces costs cut from a roll: laid out by a short search, ordered to the seller's step and priced.", (("pieces_mm", "one row for each piece: width across the goods, length and count, with or without a name before them; sizes in millimetres"), ("roll_width_mm", "width of the goods, in millimetres"), ("price_per_m", "price of one yard or metre of the goods, as named"), ("repeat_mm", "vertical repeat, in millimetres; when left out: plain goods"), ("step_m", "step the seller cuts to, in metres; when left out: none"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "tax": ("Tax on an amount, rounded once.", (("amount", "amount without tax, from 0"), ("tax_rate", "rate of the tax, 0 % to 99 %"), ("rounding", "half-up, half-even, half-down, up, down, ceiling or floor; when left out: half-up"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "taxInside": ("Tax contained in a price: gross x rate / (1 + rate), rounded once.", (("gross", "price with tax, from 0"), ("tax_rate", "rate of the tax, 0 % to 99 %"), ("rounding", "half-up, half-even, half-down, up, down, ceiling or floor; when left out: half-up"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "discount": ("What a discount takes off an amount, rounded half up.", (("amount", "amount before the discount, from 0"), ("discount", "0 % to 100 %"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "deposit": ("Deposit on a total: a share of it, rounded half up, but no less than the material where that is given, and never more than the total. What may be asked in advance can be bound by law.", (("total", "total with tax, from 0"), ("share", "0 % to 100 %"), ("material", "what the deposit covers at least, from 0, at most the total; when left out: 0"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
    "priceLine": ("A full line of a quote in one row: cost, price, discount, tax and total, each rounded once, half up, so that price - discount + tax is the total (an array formula of five cells).", (("quantity", "how much of it, from 0, to a millionth"), ("unit_cost", "what one costs, from 0"), ("markup", "0 % to 300 % of the cost"), ("discount", "0 % to 100 %; when left out: 0"), ("tax_rate", "rate of the tax, 0 % to 99 %; when left out: 0"), ("currency", "ISO 4217 code, such as JPY or KWD, whose minor unit counts; when left out: any money of two decimals"), )),
}


class Functions:
    """One method for each function of the table."""

    def apiLevel(self):
        return cells("APILEVEL", ())

    def versionText(self):
        return cells("VERSIONTEXT", ())

    def why(self, function, argument1, argument2, argument3, argument4, argument5, argument6, argument7, argument8):
        return cells("WHY", (function, argument1, argument2, argument3, argument4, argument5, argument6, argument7, argument8))

    def readLengthIn(self, lengthText):
        return cells("READLENGTHIN", (lengthText,))

    def readLengthMm(self, lengthText):
        return cells("READLENGTHMM", (lengthText,))

    def readAreaSqft(self, areaText):
        return cells("READAREASQFT", (areaText,))

    def readThicknessMm(self, thicknessText):
        return cells("READTHICKNESSMM", (thicknessText,))

    def fractionText(self, lengthIn, parts, rounding):
        return cells("FRACTIONTEXT", (lengthIn, parts, rounding))

    def feetInchText(self, lengthIn, parts, rounding):
        return cells("FEETINCHTEXT", (lengthIn, parts, rounding))

    def roundUpIn(self, lengthIn, stepIn):
        return cells("ROUNDUPIN", (lengthIn, stepIn))

    def roundUpMm(self, lengthMm, stepMm):
        return cells("ROUNDUPMM", (lengthMm, stepMm))

    def inToMm(self, lengthIn):
        return cells("INTOMM", (lengthIn,))

    def mmToIn(self, lengthMm):
        return cells("MMTOIN", (lengthMm,))

    def ydToM(self, lengthYd):
        return cells("YDTOM", (lengthYd,))

    def mToYd(self, lengthM):
        return cells("MTOYD", (lengthM,))

    def sqftToSqdm(self, areaSqft):
        return cells("SQFTTOSQDM", (areaSqft,))

    def sqdmToSqft(self, areaSqdm):
        return cells("SQDMTOSQFT", (areaSqdm,))

    def ozToMm(self, thicknessOz):
        return cells("OZTOMM", (thicknessOz,))

    def mmToOz(self, thicknessMm):
        return cells("MMTOOZ", (thicknessMm,))

    def markedAreaSqft(self, mark, notation):
        return cells("MARKEDAREASQFT", (mark, notation))

    def allowanceIn(self, finish):
        return cells("ALLOWANCEIN", (finish,))

    def allowanceMm(self, finish):
        return cells("ALLOWANCEMM", (finish,))

    def allowanceBasisText(self, finish):
        return cells("ALLOWANCEBASISTEXT", (finish,))

    def cutSizeIn(self, finishedIn, firstIn, secondIn, stretch):
        return cells("CUTSIZEIN", (finishedIn, firstIn, secondIn, stretch))

    def cutSizeMm(self, finishedMm, firstMm, secondMm, stretch):
        return cells("CUTSIZEMM", (finishedMm, firstMm, secondMm, stretch))

    def cutForFinishIn(self, finishedIn, first, second):
        return cells("CUTFORFINISHIN", (finishedIn, first, second))

    def cutForFinishMm(self, finishedMm, first, second):
        return cells("CUTFORFINISHMM", (finishedMm, first, second))

    def leatherSeamIn(self, finishedIn):
        return cells("LEATHERSEAMIN", (finishedIn,))

    def leatherSeamMm(self, finishedMm):
        return cells("LEATHERSEAMMM", (finishedMm,))

    def stretchShare(self, slackIn, pulledIn):
        return cells("STRETCHSHARE", (slackIn, pulledIn))

    def stretchShareMetric(self, slackMm, pulledMm):
        return cells("STRETCHSHAREMETRIC", (slackMm, pulledMm))

    def easeShare(self, firstIn, secondIn):
        return cells("EASESHARE", (firstIn, secondIn))

    def easeShareMetric(self, firstMm, secondMm):
        return cells("EASESHAREMETRIC", (firstMm, secondMm))

    def easeText(self, firstIn, secondIn, goods):
        return cells("EASETEXT", (firstIn, secondIn, goods))

    def easeTextMetric(self, firstMm, secondMm, goods):
        return cells("EASETEXTMETRIC", (firstMm, secondMm, goods))

    def easeMarksIn(self, firstIn, secondIn, spacingIn):
        return cells("EASEMARKSIN", (firstIn, secondIn, spacingIn))

    def easeMarksMm(self, firstMm, secondMm, spacingMm):
        return cells("EASEMARKSMM", (firstMm, secondMm, spacingMm))

    def weltStripIn(self, cordIn, tailIn, clothIn, stepIn):
        return cells("WELTSTRIPIN", (cordIn, tailIn, clothIn, stepIn))

    def weltStripMm(self, cordMm, tailMm, clothMm, stepMm):
        return cells("WELTSTRIPMM", (cordMm, tailMm, clothMm, stepMm))

    def doubleWeltStripIn(self, singleIn):
        return cells("DOUBLEWELTSTRIPIN", (singleIn,))

    def doubleWeltStripMm(self, singleMm):
        return cells("DOUBLEWELTSTRIPMM", (singleMm,))

    def weltCutIn(self, runsIn, stripIn, longestIn):
        return cells("WELTCUTIN", (runsIn, stripIn, longestIn))

    def weltCutMm(self, runsMm, stripMm, longestMm):
        return cells("WELTCUTMM", (runsMm, stripMm, longestMm))

    def boxingWidthIn(self, perimeterIn, depthIn, longestIn, seamIn):
        return cells("BOXINGWIDTHIN", (perimeterIn, depthIn, longestIn, seamIn))

    def boxingWidthMm(self, perimeterMm, depthMm, longestMm, seamMm):
        return cells("BOXINGWIDTHMM", (perimeterMm, depthMm, longestMm, seamMm))

    def boxingLengthIn(self, perimeterIn, depthIn, longestIn, seamIn):
        return cells("BOXINGLENGTHIN", (perimeterIn, depthIn, longestIn, seamIn))

    def boxingLengthMm(self, perimeterMm, depthMm, longestMm, seamMm):
        return cells("BOXINGLENGTHMM", (perimeterMm, depthMm, longestMm, seamMm))

    def boxingJoinsIn(self, perimeterIn, depthIn, longestIn, seamIn):
        return cells("BOXINGJOINSIN", (perimeterIn, depthIn, longestIn, seamIn))

    def boxingJoinsMm(self, perimeterMm, depthMm, longestMm, seamMm):
        return cells("BOXINGJOINSMM", (perimeterMm, depthMm, longestMm, seamMm))

    def biasLengthIn(self, widthIn, heightIn, stripIn, seamIn):
        return cells("BIASLENGTHIN", (widthIn, heightIn, stripIn, seamIn))

    def biasLengthMm(self, widthMm, heightMm, stripMm, seamMm):
        return cells("BIASLENGTHMM", (widthMm, heightMm, stripMm, seamMm))

    def biasSquareIn(self, lengthIn, stripIn, seamIn):
        return cells("BIASSQUAREIN", (lengthIn, stripIn, seamIn))

    def biasSquareMm(self, lengthMm, stripMm, seamMm):
        return cells("BIASSQUAREMM", (lengthMm, stripMm, seamMm))

    def tuftSpacingIn(self, faceIn, depthIn, rule):
        return cells("TUFTSPACINGIN", (faceIn, depthIn, rule))

    def tuftSpacingMm(self, faceMm, depthMm, rule):
        return cells("TUFTSPACINGMM", (faceMm, depthMm, rule))

    def tuftCutWidthIn(self, widthIn, heightIn, across, down, depthIn, rule):
        return cells("TUFTCUTWIDTHIN", (widthIn, heightIn, across, down, depthIn, rule))

    def tuftCutWidthMm(self, widthMm, heightMm, across, down, depthMm, rule):
        return cells("TUFTCUTWIDTHMM", (widthMm, heightMm, across, down, depthMm, rule))

    def tuftCutHeightIn(self, widthIn, heightIn, across, down, depthIn, rule):
        return cells("TUFTCUTHEIGHTIN", (widthIn, heightIn, across, down, depthIn, rule))

    def tuftCutHeightMm(self, widthMm, heightMm, across, down, depthMm, rule):
        return cells("TUFTCUTHEIGHTMM", (widthMm, heightMm, across, down, depthMm, rule))

    def tuftButtons(self, widthIn, heightIn, across, down, depthIn, rule):
        return cells("TUFTBUTTONS", (widthIn, heightIn, across, down, depthIn, rule))

    def tuftButtonsMetric(self, widthMm, heightMm, across, down, depthMm, rule):
        return cells("TUFTBUTTONSMETRIC", (widthMm, heightMm, across, down, depthMm, rule))

    def channelCoverIn(self, widthIn, riseIn):
        return cells("CHANNELCOVERIN", (widthIn, riseIn))

    def channelCoverMm(self, widthMm, riseMm):
        return cells("CHANNELCOVERMM", (widthMm, riseMm))

    def pleatClothIn(self, kind, finishedIn, count, underfoldIn):
        return cells("PLEATCLOTHIN", (kind, finishedIn, count, underfoldIn))

    def pleatClothMm(self, kind, finishedMm, count, underfoldMm):
        return cells("PLEATCLOTHMM", (kind, finishedMm, count, underfoldMm))

    def ringIn(self, widthIn, depthIn):
        return cells("RINGIN", (widthIn, depthIn))

    def ringMm(self, widthMm, depthMm):
        return cells("RINGMM", (widthMm, depthMm))

    def bolsterGirthIn(self, diameterIn, seamIn):
        return cells("BOLSTERGIRTHIN", (diameterIn, seamIn))

    def bolsterGirthMm(self, diameterMm, seamMm):
        return cells("BOLSTERGIRTHMM", (diameterMm, seamMm))

    def cushionCutsIn(self, widthIn, depthIn, thicknessIn, cordIn, longestIn, seamIn):
        return cells("CUSHIONCUTSIN", (widthIn, depthIn, thicknessIn, cordIn, longestIn, seamIn))

    def cushionCutsMm(self, widthMm, depthMm, thicknessMm, cordMm, longestMm, seamMm):
        return cells("CUSHIONCUTSMM", (widthMm, depthMm, thicknessMm, cordMm, longestMm, seamMm))

    def cushionFoamIn(self, widthIn, depthIn, thicknessIn, fit):
        return cells("CUSHIONFOAMIN", (widthIn, depthIn, thicknessIn, fit))

    def cushionFoamMm(self, widthMm, depthMm, thicknessMm, fit):
        return cells("CUSHIONFOAMMM", (widthMm, depthMm, thicknessMm, fit))

    def cushionZipIn(self, widthIn, depthIn, thicknessIn, cordIn, longestIn, seamIn):
        return cells("CUSHIONZIPIN", (widthIn, depthIn, thicknessIn, cordIn, longestIn, seamIn))

    def cushionZipMm(self, widthMm, depthMm, thicknessMm, cordMm, longestMm, seamMm):
        return cells("CUSHIONZIPMM", (widthMm, depthMm, thicknessMm, cordMm, longestMm, seamMm))

    def cushionSewnYd(self, widthIn, depthIn, thicknessIn, cordIn, longestIn, seamIn):
        return cells("CUSHIONSEWNYD", (widthIn, depthIn, thicknessIn, cordIn, longestIn, seamIn))

    def cushionSewnM(self, widthMm, depthMm, thicknessMm, cordMm, longestMm, seamMm):
        return cells("CUSHIONSEWNM", (widthMm, depthMm, thicknessMm, cordMm, longestMm, seamMm))

    def gatherClothIn(self, finishedIn, fullness):
        return cells("GATHERCLOTHIN", (finishedIn, fullness))

    def gatherClothMm(self, finishedMm, fullness):
        return cells("GATHERCLOTHMM", (finishedMm, fullness))

    def gatheredSkirtIn(self, baseIn, dropIn, fullness, longestIn):
        return cells("GATHEREDSKIRTIN", (baseIn, dropIn, fullness, longestIn))

    def gatheredSkirtMm(self, baseMm, dropMm, fullness, longestMm):
        return cells("GATHEREDSKIRTMM", (baseMm, dropMm, fullness, longestMm))

    def pleatedSkirtIn(self, kind, baseIn, dropIn, count, underfoldIn, longestIn):
        return cells("PLEATEDSKIRTIN", (kind, baseIn, dropIn, count, underfoldIn, longestIn))

    def pleatedSkirtMm(self, kind, baseMm, dropMm, count, underfoldMm, longestMm):
        return cells("PLEATEDSKIRTMM", (kind, baseMm, dropMm, count, underfoldMm, longestMm))

    def kickPleatSkirtIn(self, sidesIn, dropIn):
        return cells("KICKPLEATSKIRTIN", (sidesIn, dropIn))

    def kickPleatSkirtMm(self, sidesMm, dropMm):
        return cells("KICKPLEATSKIRTMM", (sidesMm, dropMm))

    def sumAreaSqft(self, piecesIn):
        return cells("SUMAREASQFT", (piecesIn,))

    def sumAreaSqdm(self, piecesMm):
        return cells("SUMAREASQDM", (piecesMm,))

    def buyAreaSqft(self, netSqft, waste):
        return cells("BUYAREASQFT", (netSqft, waste))

    def buyAreaSqdm(self, netSqdm, waste):
        return cells("BUYAREASQDM", (netSqdm, waste))

    def hidesToBuy(self, netSqft, hideSqft, waste):
        return cells("HIDESTOBUY", (netSqft, hideSqft, waste))

    def hidesToBuyMetric(self, netSqdm, hideSqdm, waste):
        return cells("HIDESTOBUYMETRIC", (netSqdm, hideSqdm, waste))

    def hidesByLayout(self, piecesIn, hideSqft, kind):
        return cells("HIDESBYLAYOUT", (piecesIn, hideSqft, kind))

    def hidesByLayoutMetric(self, piecesMm, hideSqdm, kind):
        return cells("HIDESBYLAYOUTMETRIC", (piecesMm, hideSqdm, kind))

    def leatherForClothSqft(self, lengthYd, widthIn, yieldShare):
        return cells("LEATHERFORCLOTHSQFT", (lengthYd, widthIn, yieldShare))

    def leatherForClothSqdm(self, lengthM, widthMm, yieldShare):
        return cells("LEATHERFORCLOTHSQDM", (lengthM, widthMm, yieldShare))

    def repeatLengthIn(self, needIn, repeatIn):
        return cells("REPEATLENGTHIN", (needIn, repeatIn))

    def repeatLengthMm(self, needMm, repeatMm):
        return cells("REPEATLENGTHMM", (needMm, repeatMm))

    def yardageYd(self, piecesIn, rollWidthIn, repeatIn, stepYd, selvageIn):
        return cells("YARDAGEYD", (piecesIn, rollWidthIn, repeatIn, stepYd, selvageIn))

    def yardageM(self, piecesMm, rollWidthMm, repeatMm, stepM, selvageMm):
        return cells("YARDAGEM", (piecesMm, rollWidthMm, repeatMm, stepM, selvageMm))

    def widthByChartYd(self, lengthYd, fromIn, toIn):
        return cells("WIDTHBYCHARTYD", (lengthYd, fromIn, toIn))

    def widthByAreaYd(self, lengthYd, fromIn, toIn):
        return cells("WIDTHBYAREAYD", (lengthYd, fromIn, toIn))

    def widthByAreaM(self, lengthM, fromMm, toMm):
        return cells("WIDTHBYAREAM", (lengthM, fromMm, toMm))

    def patternedYd(self, plainYd, widthIn, repeatIn, acrossIn):
        return cells("PATTERNEDYD", (plainYd, widthIn, repeatIn, acrossIn))

    def patternedM(self, plainM, widthMm, repeatMm, acrossMm):
        return cells("PATTERNEDM", (plainM, widthMm, repeatMm, acrossMm))

    def nailCount(self, sidesIn, headIn, pitchIn):
        return cells("NAILCOUNT", (sidesIn, headIn, pitchIn))

    def nailCountMetric(self, sidesMm, headMm, pitchMm):
        return cells("NAILCOUNTMETRIC", (sidesMm, headMm, pitchMm))

    def webbingIn(self, widthIn, depthIn, stripIn):
        return cells("WEBBINGIN", (widthIn, depthIn, stripIn))

    def webbingMm(self, widthMm, depthMm, stripMm):
        return cells("WEBBINGMM", (widthMm, depthMm, stripMm))

    def stapleCount(self, edgesIn, pitchIn):
        return cells("STAPLECOUNT", (edgesIn, pitchIn))

    def stapleCountMetric(self, edgesMm, pitchMm):
        return cells("STAPLECOUNTMETRIC", (edgesMm, pitchMm))

    def stapleLegIn(self, layersIn, railIn, biteIn):
        return cells("STAPLELEGIN", (layersIn, railIn, biteIn))

    def stapleLegMm(self, layersMm, railMm, biteMm):
        return cells("STAPLELEGMM", (layersMm, railMm, biteMm))

    def zipChainIn(self, openingsIn):
        return cells("ZIPCHAININ", (openingsIn,))

    def zipChainMm(self, openingsMm):
        return cells("ZIPCHAINMM", (openingsMm,))

    def zipSliders(self, openingsIn):
        return cells("ZIPSLIDERS", (openingsIn,))

    def zipSlidersMetric(self, openingsMm):
        return cells("ZIPSLIDERSMETRIC", (openingsMm,))

    def battingSqft(self, lengthIn, widthIn, thicknessIn, layers, overlapIn):
        return cells("BATTINGSQFT", (lengthIn, widthIn, thicknessIn, layers, overlapIn))

    def battingSqdm(self, lengthMm, widthMm, thicknessMm, layers, overlapMm):
        return cells("BATTINGSQDM", (lengthMm, widthMm, thicknessMm, layers, overlapMm))

    def battingCutIn(self, lengthIn, widthIn, thicknessIn, layers, overlapIn):
        return cells("BATTINGCUTIN", (lengthIn, widthIn, thicknessIn, layers, overlapIn))

    def battingCutMm(self, lengthMm, widthMm, thicknessMm, layers, overlapMm):
        return cells("BATTINGCUTMM", (lengthMm, widthMm, thicknessMm, layers, overlapMm))

    def battingCrownIn(self, batting, layers):
        return cells("BATTINGCROWNIN", (batting, layers))

    def battingCrownMm(self, batting, layers):
        return cells("BATTINGCROWNMM", (batting, layers))

    def threadSize(self, size):
        return cells("THREADSIZE", (size,))

    def threadTex(self, size):
        return cells("THREADTEX", (size,))

    def countToTex(self, count, system):
        return cells("COUNTTOTEX", (count, system))

    def texToCount(self, countTex, system):
        return cells("TEXTOCOUNT", (countTex, system))

    def threadForText(self, goods, layers):
        return cells("THREADFORTEXT", (goods, layers))

    def needleForText(self, goods, layers):
        return cells("NEEDLEFORTEXT", (goods, layers))

    def needlesText(self, size, goods):
        return cells("NEEDLESTEXT", (size, goods))

    def stitchLengthMm(self, stitchesPerInch):
        return cells("STITCHLENGTHMM", (stitchesPerInch,))

    def threadUseYd(self, seamIn, thicknessMm, stitchesPerInch, stitch):
        return cells("THREADUSEYD", (seamIn, thicknessMm, stitchesPerInch, stitch))

    def threadUseM(self, seamMm, thicknessMm, stitchesPerInch, stitch):
        return cells("THREADUSEM", (seamMm, thicknessMm, stitchesPerInch, stitch))

    def coneLengthYd(self, size, netOz):
        return cells("CONELENGTHYD", (size, netOz))

    def coneLengthM(self, size, netG):
        return cells("CONELENGTHM", (size, netG))

    def seamStrengthLbfIn(self, size, fibre, stitchesPerInch):
        return cells("SEAMSTRENGTHLBFIN", (size, fibre, stitchesPerInch))

    def seamStrengthNCm(self, size, fibre, stitchesPerInch):
        return cells("SEAMSTRENGTHNCM", (size, fibre, stitchesPerInch))

    def boardFeet(self, lengthIn, widthIn, thicknessIn, count):
        return cells("BOARDFEET", (lengthIn, widthIn, thicknessIn, count))

    def foamLitres(self, lengthMm, widthMm, thicknessMm, count):
        return cells("FOAMLITRES", (lengthMm, widthMm, thicknessMm, count))

    def foamDensityPcf(self, massLb, lengthIn, widthIn, thicknessIn):
        return cells("FOAMDENSITYPCF", (massLb, lengthIn, widthIn, thicknessIn))

    def foamDensityKgm3(self, massKg, lengthMm, widthMm, thicknessMm):
        return cells("FOAMDENSITYKGM3", (massKg, lengthMm, widthMm, thicknessMm))

    def foamMassLb(self, lengthIn, widthIn, thicknessIn, densityPcf):
        return cells("FOAMMASSLB", (lengthIn, widthIn, thicknessIn, densityPcf))

    def foamMassKg(self, lengthMm, widthMm, thicknessMm, densityKgm3):
        return cells("FOAMMASSKG", (lengthMm, widthMm, thicknessMm, densityKgm3))

    def sheetThicknessIn(self, boxingIn):
        return cells("SHEETTHICKNESSIN", (boxingIn,))

    def sheetThicknessMm(self, boxingMm):
        return cells("SHEETTHICKNESSMM", (boxingMm,))

    def supportFactor(self, ifd25Lbf, ifd65Lbf):
        return cells("SUPPORTFACTOR", (ifd25Lbf, ifd65Lbf))

    def supportFactorMetric(self, ifd25N, ifd65N):
        return cells("SUPPORTFACTORMETRIC", (ifd25N, ifd65N))

    def ildLowLbf(self, use, duty, thicknessIn, base):
        return cells("ILDLOWLBF", (use, duty, thicknessIn, base))

    def ildLowN(self, use, duty, thicknessMm, base):
        return cells("ILDLOWN", (use, duty, thicknessMm, base))

    def ildHighLbf(self, use, duty, thicknessIn, base):
        return cells("ILDHIGHLBF", (use, duty, thicknessIn, base))

    def ildHighN(self, use, duty, thicknessMm, base):
        return cells("ILDHIGHN", (use, duty, thicknessMm, base))

    def ildTargetLbf(self, use, duty, thicknessIn, base):
        return cells("ILDTARGETLBF", (use, duty, thicknessIn, base))

    def ildTargetN(self, use, duty, thicknessMm, base):
        return cells("ILDTARGETN", (use, duty, thicknessMm, base))

    def foamDensityLowPcf(self, use, duty, thicknessIn, base):
        return cells("FOAMDENSITYLOWPCF", (use, duty, thicknessIn, base))

    def foamDensityLowKgm3(self, use, duty, thicknessMm, base):
        return cells("FOAMDENSITYLOWKGM3", (use, duty, thicknessMm, base))

    def sinkIn(self, thicknessIn, ifd25Lbf, ifd65Lbf, sitterLb):
        return cells("SINKIN", (thicknessIn, ifd25Lbf, ifd65Lbf, sitterLb))

    def sinkMm(self, thicknessMm, ifd25N, ifd65N, sitterKg):
        return cells("SINKMM", (thicknessMm, ifd25N, ifd65N, sitterKg))

    def bottomsOut(self, thicknessIn, ifd25Lbf, ifd65Lbf, sitterLb):
        return cells("BOTTOMSOUT", (thicknessIn, ifd25Lbf, ifd65Lbf, sitterLb))

    def bottomsOutMetric(self, thicknessMm, ifd25N, ifd65N, sitterKg):
        return cells("BOTTOMSOUTMETRIC", (thicknessMm, ifd25N, ifd65N, sitterKg))

    def markupPrice(self, cost, markup, currency):
        return cells("MARKUPPRICE", (cost, markup, currency))

    def marginPrice(self, cost, margin, currency):
        return cells("MARGINPRICE", (cost, margin, currency))

    def marginOf(self, cost, price, currency):
        return cells("MARGINOF", (cost, price, currency))

    def markupOf(self, cost, price, currency):
        return cells("MARKUPOF", (cost, price, currency))

    def markupToMargin(self, markup):
        return cells("MARKUPTOMARGIN", (markup,))

    def marginToMarkup(self, margin):
        return cells("MARGINTOMARKUP", (margin,))

    def shopRate(self, wage, burden, overhead, soldHours, margin, currency):
        return cells("SHOPRATE", (wage, burden, overhead, soldHours, margin, currency))

    def labourPrice(self, timeHours, rate, currency):
        return cells("LABOURPRICE", (timeHours, rate, currency))

    def learningHours(self, firstHours, count, rate):
        return cells("LEARNINGHOURS", (firstHours, count, rate))

    def roundAmount(self, amount, step, rounding, currency):
        return cells("ROUNDAMOUNT", (amount, step, rounding, currency))

    def allocate(self, whole, weights, currency):
        return cells("ALLOCATE", (whole, weights, currency))

    def split(self, whole, count, currency):
        return cells("SPLIT", (whole, count, currency))

    def goodsCost(self, piecesIn, rollWidthIn, pricePerYd, repeatIn, stepYd, currency):
        return cells("GOODSCOST", (piecesIn, rollWidthIn, pricePerYd, repeatIn, stepYd, currency))

    def goodsCostMetric(self, piecesMm, rollWidthMm, pricePerM, repeatMm, stepM, currency):
        return cells("GOODSCOSTMETRIC", (piecesMm, rollWidthMm, pricePerM, repeatMm, stepM, currency))

    def tax(self, amount, taxRate, rounding, currency):
        return cells("TAX", (amount, taxRate, rounding, currency))

    def taxInside(self, gross, taxRate, rounding, currency):
        return cells("TAXINSIDE", (gross, taxRate, rounding, currency))

    def discount(self, amount, discount, currency):
        return cells("DISCOUNT", (amount, discount, currency))

    def deposit(self, total, share, material, currency):
        return cells("DEPOSIT", (total, share, material, currency))

    def priceLine(self, quantity, unitCost, markup, discount, taxRate, currency):
        return cells("PRICELINE", (quantity, unitCost, markup, discount, taxRate, currency))


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
