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

LEVEL = 1
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


def clean(kind, value):
    if isinstance(value, tuple):
        # A whole column is far more than any function takes.
        if kind != "r" or len(value) > MOST_ROWS or any(len(row) > MOST_COLUMNS for row in value):
            raise Fault("#VALUE!")
        return [[cell(v) for v in row] for row in value]
    return cell(value)


def call(name, kinds, args):
    sent = [clean(k, v) for k, v in zip(kinds, args)]
    while sent and sent[-1] is None:
        sent.pop()
    answer = CHILD.ask(name, sent)
    if "error" in answer:
        raise Fault(answer["error"])
    return answer["value"]


def scalar(name, kinds, args):
    try:
        value = call(name, kinds, args)
        if isinstance(value, str):
            return value
        return float(value)
    except Fault as fault:
        return ERRORS.get(fault.code, ERRORS["#VALUE!"])
    except Exception:
        return ERRORS["#VALUE!"]


def column(name, kinds, args):
    try:
        return tuple((float(v),) for v in call(name, kinds, args))
    except Fault as fault:
        return ((ERRORS.get(fault.code, ERRORS["#VALUE!"]),),)
    except Exception:
        return ((ERRORS["#VALUE!"],),)


# Help and arguments of every function by its method.
NAMES = {
    "apiLevel": ("Level of the function table. A workbook made for a higher level than this one needs a newer add-in.", ()),
    "versionText": ("Name and level of the function table.", ()),
    "readLengthIn": ("Reads a length as a shop writes it: 25 5/8 in, 2' 1 5/8\", 1 1/2 yd, 652 mm.", (("length_text", "a length with its unit"), )),
    "readLengthMm": ("Reads a length as a shop writes it and gives millimetres.", (("length_text", "a length with its unit"), )),
    "readAreaSqft": ("Reads an area: 48 sq ft, 4.5 m2.", (("area_text", "an area with its unit"), )),
    "readThicknessMm": ("Reads a leather thickness: 3 oz (1/64 in each), 12 irons, 1.2 mm.", (("thickness_text", "a thickness with its unit"), )),
    "fractionText": ("Writes inches as a mixed fraction: 25.625 as 25 5/8 in.", (("length_in", "a length"), ("parts", "finest fraction: 2, 4, 8, 16, 32 or 64; 1 for whole inches"), ("rounding", "nearest, up or down; when left out: nearest"), )),
    "feetInchText": ("Writes inches in feet and inches: 25.625 as 2' 1 5/8\".", (("length_in", "a length"), ("parts", "finest fraction: 2, 4, 8, 16, 32 or 64; 1 for whole inches"), ("rounding", "nearest, up or down; when left out: nearest"), )),
    "roundUpIn": ("Rounds a length up to a step, such as 1/8 in: nothing gets shorter. Exact, where a sheet's own rounding can miss a step.", (("length_in", "a length"), ("step_in", "the step, above zero"), )),
    "inToMm": ("Inches to millimetres (1 in = 25.4 mm).", (("length_in", "the figure to convert"), )),
    "mmToIn": ("Millimetres to inches.", (("length_mm", "the figure to convert"), )),
    "ydToM": ("Yards to metres (1 yd = 0.9144 m).", (("length_yd", "the figure to convert"), )),
    "mToYd": ("Metres to yards.", (("length_m", "the figure to convert"), )),
    "sqftToSqdm": ("Square feet of leather to square decimetres (1 sq ft = 9.290304 sq dm).", (("area_sqft", "the figure to convert"), )),
    "sqdmToSqft": ("Square decimetres of leather to square feet.", (("area_sqdm", "the figure to convert"), )),
    "ozToMm": ("Leather ounces to millimetres (1 oz of thickness = 1/64 in).", (("thickness_oz", "the figure to convert"), )),
    "mmToOz": ("Millimetres to leather ounces.", (("thickness_mm", "the figure to convert"), )),
    "markedAreaSqft": ("Reads the area marked on a skin. The same mark means different areas, so the notation must be named.", (("mark", "the figures on the skin, such as 50.3 or 4/1"), ("notation", "tenths (50.3 is fifty and three tenths), quarters (4/1) or point quarters (50.3 is fifty and three quarters)"), )),
    "allowanceIn": ("The allowance usual for a finish, added outside the finished line of one edge.", (("finish", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), )),
    "allowanceBasisText": ("What the allowance usual for a finish is founded on.", (("finish", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), )),
    "cutSizeIn": ("Cut size of a panel in one direction: finished size less what it stretches, plus the allowance at both ends.", (("finished_in", "finished size"), ("first_in", "allowance at one end"), ("second_in", "allowance at the other"), ("stretch_percent", "share taken out because the cover is pulled tight; when left out: 0"), )),
    "cutForFinishIn": ("Cut size of a panel in one direction with the allowances usual for the finish at both ends.", (("finished_in", "finished size"), ("first", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), ("second", "finish of the edge: plain seam, top-stitched seam, welted seam, boxed seam, zip seam, turned under and stapled, pull-over, single hem, double hem, fold, raw"), )),
    "leatherSeamIn": ("Size between the seam lines of a leather panel by the customary rule: 1/4 in taken out of every 10 in, nothing under 10 in.", (("finished_in", "finished size"), )),
    "stretchPercent": ("Share to take out of a panel, from a sample measured slack and pulled as tight as the cover will be.", (("slack_in", "length of the sample at rest"), ("pulled_in", "its length under the pull"), )),
    "easePercent": ("By how much one of two edges that are sewn together is longer than the other.", (("first_in", "seam line of one edge"), ("second_in", "seam line of the other"), )),
    "easeText": ("Whether two edges of different length can be sewn together: flat, eased in, gathered or not. Limits from memory; sew a sample.", (("first_in", "seam line of one edge"), ("second_in", "seam line of the other"), ("goods", "loose woven, firm woven, pile, soft leather, firm leather, coated woven; when left out: firm woven"), )),
    "easeMarksIn": ("Where to mark the first edge so that the ease spreads evenly: distances from its start, one below the other (an array formula).", (("first_in", "seam line of one edge"), ("second_in", "seam line of the other"), ("spacing_in", "greatest distance between marks on the shorter edge"), )),
    "weltStripIn": ("Width of the strip that covers a welt cord: pi x (cord + cloth) + two tails.", (("cord_in", "diameter of the cord"), ("tail_in", "from the cord to the raw edge; when left out: the allowance of a welted seam"), ("cloth_in", "thickness of the cloth; when left out: 0"), ("step_in", "step to round up to; when left out: no rounding"), )),
    "doubleWeltStripIn": ("Width of the strip for a double welt: twice that of a single one. Common practice.", (("single_in", "strip of a single welt"), )),
    "weltCutIn": ("Length of welt strip to cut for seams or closed rings: their lengths, 2 in each to finish the ends, and what the diagonal joins use up.", (("runs_in", "finished length of each run of welt"), ("strip_in", "width of the strip"), ("longest_in", "longest strip the goods allow; when left out: no limit"), )),
    "boxingWidthIn": ("Cut width of a boxing strip.", (("perimeter_in", "perimeter of the plate at the stitch line"), ("depth_in", "finished height of the boxing"), ("longest_in", "longest piece the goods allow; 0 for no limit"), ("seam_in", "seam allowance; when left out: that of a boxed seam"), )),
    "boxingLengthIn": ("Cut length of all pieces of a boxing strip together, joins included.", (("perimeter_in", "perimeter of the plate at the stitch line"), ("depth_in", "finished height of the boxing"), ("longest_in", "longest piece the goods allow; 0 for no limit"), ("seam_in", "seam allowance; when left out: that of a boxed seam"), )),
    "boxingJoinsIn": ("Where the joins of a boxing strip lie: distances round the stitch line from the middle of the back (an array formula).", (("perimeter_in", "perimeter of the plate at the stitch line"), ("depth_in", "finished height of the boxing"), ("longest_in", "longest piece the goods allow; 0 for no limit"), ("seam_in", "seam allowance; when left out: that of a boxed seam"), )),
    "biasLengthIn": ("Length of the continuous bias strip that a rectangle of cloth gives.", (("width_in", "width of the cloth"), ("height_in", "its height"), ("strip_in", "cut width of the strip"), ("seam_in", "allowance of each tube seam; when left out: 0"), )),
    "biasSquareIn": ("Side of the square of cloth for a continuous bias strip of a length. Common practice.", (("length_in", "length of strip wanted"), ("strip_in", "cut width of the strip"), ("seam_in", "allowance of each tube seam; when left out: 0"), )),
    "tuftSpacingIn": ("Distance between two deep buttons on the cloth. The rules disagree; tuft a sample.", (("face_in", "distance on the finished face"), ("depth_in", "depth of the button below it"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftCutWidthIn": ("Width of cloth to cut for a deep-buttoned panel, with 1 in of tack edge.", (("width_in", "finished width of the panel"), ("height_in", "finished height"), ("across", "whole diamonds side by side"), ("down", "whole diamonds one above the other"), ("depth_in", "depth of the buttons below the face"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftCutHeightIn": ("Height of cloth to cut for a deep-buttoned panel, with 1 in of tack edge.", (("width_in", "finished width of the panel"), ("height_in", "finished height"), ("across", "whole diamonds side by side"), ("down", "whole diamonds one above the other"), ("depth_in", "depth of the buttons below the face"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "tuftButtons": ("Number of buttons of a deep-buttoned panel.", (("width_in", "finished width of the panel"), ("height_in", "finished height"), ("across", "whole diamonds side by side"), ("down", "whole diamonds one above the other"), ("depth_in", "depth of the buttons below the face"), ("rule", "how much cloth a button takes up: half again, twice the depth, once the depth, groove"), )),
    "channelCoverIn": ("Cloth across one filled channel that rises as an arc of a circle.", (("width_in", "width of the channel"), ("rise_in", "rise of the filling above the seams"), )),
    "pleatClothIn": ("Flat length of cloth for a pleated length.", (("kind", "knife pleat, box pleat or inverted pleat"), ("finished_in", "length when pleated"), ("count", "pleats in it"), ("underfold_in", "depth of each fold behind the face"), )),
    "ringIn": ("Seam line round a round or oval plate. Give one width for a circle.", (("width_in", "width of the plate"), ("depth_in", "depth of an oval; when left out: the width"), )),
    "bolsterGirthIn": ("Cut girth of the body of a bolster cover: pi x diameter and two seam allowances.", (("diameter_in", "diameter of the filling"), ("seam_in", "seam allowance; when left out: that of a plain seam"), )),
    "sumAreaSqft": ("Area of a list of pieces.", (("pieces", "a range with the columns width across the goods in inches, length in inches, count"), )),
    "buyAreaSqft": ("Leather to buy when a share of it is lost: net / (1 - waste). A rule of thumb.", (("net_sqft", "area of the panels"), ("waste_percent", "share that is lost; a third of whole hides is customary"), )),
    "hidesToBuy": ("Whole hides to buy. A rule of thumb: lay the panels out before cutting.", (("net_sqft", "area of the panels"), ("hide_sqft", "area of one hide, 1 to 100"), ("waste_percent", "share that is lost, up to 90"), )),
    "leatherForClothSqft": ("Leather that replaces a length of cloth: length x width / yield. 75 % gives the customary 18 sq ft for a yard of 54 in goods.", (("length_yd", "length of cloth"), ("width_in", "its width"), ("yield_percent", "share of a hide that ends in the work"), )),
    "repeatLengthIn": ("Length to cut so that a matched pattern starts anew: whole repeats.", (("need_in", "length needed"), ("repeat_in", "vertical repeat; 0 for plain goods"), )),
    "yardageYd": ("Length of cloth to order for a list of pieces, laid out by a short search with every piece on the repeat, and the usual margin to square the ends and for flaws. A work order searches longer.", (("pieces", "a range with the columns width across the goods in inches, length in inches, count"), ("roll_width_in", "width of the goods, 10 in to 5 m"), ("repeat_in", "vertical repeat; when left out: plain goods"), ("step_yd", "step the seller cuts to; when left out: none"), ("selvage_in", "edge on each side that is not used; when left out: 0"), )),
    "widthByChartYd": ("Length of goods of another width by the customary chart, whose columns are 36, 39, 41, 45, 50, 54, 60 and 66 in.", (("length_yd", "length of the goods known"), ("from_in", "their width"), ("to_in", "width of the others"), )),
    "widthByAreaYd": ("Length of goods of another width with the same area. It ignores how pieces fit across.", (("length_yd", "length of the goods known"), ("from_in", "their width"), ("to_in", "width of the others"), )),
    "patternedYd": ("Length of patterned goods for a length of plain ones, by the customary shares. A layout is better.", (("plain_yd", "length of plain goods"), ("width_in", "width, 50 in or more"), ("repeat_in", "vertical repeat"), ("across_in", "horizontal repeat; when left out: 0"), )),
    "nailCount": ("Decorative nails along edges, one on every corner, the others spaced evenly and never wider.", (("sides_in", "length of each side, corner to corner"), ("head_in", "diameter of the head"), ("pitch_in", "widest distance from nail to nail; when left out: head to head"), )),
    "webbingIn": ("Length of webbing for an opening, woven both ways, with gaps of 1 in at most and 3 in held at each end.", (("width_in", "width of the opening"), ("depth_in", "its depth"), ("strip_in", "width of the webbing; when left out: 3 1/2 in"), )),
    "zipChainIn": ("Zip chain for openings, with 1 in beyond each end.", (("openings_in", "finished length of each opening"), )),
    "threadSize": ("Trade number of a thread size in any naming.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), )),
    "threadTex": ("Count of the finished thread; the tex on the label is about a tenth lower.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), )),
    "countToTex": ("Converts a yarn count of any system to tex.", (("count", "the count"), ("system", "tex, dtex, den, Nm, Ne, yd/lb, metric ticket, cotton ticket, trade number"), )),
    "texToCount": ("Converts tex to a yarn count of any system.", (("count_tex", "the count in tex"), ("system", "tex, dtex, den, Nm, Ne, yd/lb, metric ticket, cotton ticket, trade number"), )),
    "threadForText": ("Fibre and size of thread to start with for goods and layers.", (("goods", "light woven, woven, canvas, vinyl, leather, heavy leather"), ("layers", "layers the needle passes, 1 to 20"), )),
    "needleForText": ("Needle to start with for goods and layers, by metric size and number.", (("goods", "light woven, woven, canvas, vinyl, leather, heavy leather"), ("layers", "layers the needle passes, 1 to 20"), )),
    "needlesText": ("Range of needles for a thread size in goods.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), ("goods", "light woven, woven, canvas, vinyl, leather, heavy leather"), )),
    "stitchLengthMm": ("Length of one stitch: 25.4 mm / stitches per inch.", (("stitches_per_in", "1 to 60"), )),
    "threadUseYd": ("Needle and bobbin thread of a seam by the geometry of its stitch, without tails and waste. On the high side.", (("seam_in", "length of the seam"), ("thickness_mm", "thickness of all layers"), ("stitches_per_in", "1 to 60"), ("stitch", "standard number: 301 lockstitch, 401 chainstitch; when left out: 301"), )),
    "coneLengthYd": ("Thread on a cone of a net weight.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), ("net_oz", "net weight of the thread"), )),
    "seamStrengthLbfIn": ("Estimate of what the stitching of a lockstitch seam carries across its line, with the cautious strength of the thread. No leave to sew safety gear.", (("size", "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"), ("fibre", "nylon or polyester"), ("stitches_per_in", "1 to 60"), )),
    "boardFeet": ("Board feet of a block of foam: 144 cubic inches each.", (("length_in", "length of the block"), ("width_in", "its width"), ("thickness_in", "its thickness"), ("count", "blocks alike; when left out: 1"), )),
    "foamDensityPcf": ("Density of a block of foam that was weighed.", (("mass_lb", "weight of the block"), ("length_in", "length of the block"), ("width_in", "its width"), ("thickness_in", "its thickness"), )),
    "foamMassLb": ("Weight of a block of foam.", (("length_in", "length of the block"), ("width_in", "its width"), ("thickness_in", "its thickness"), ("density_pcf", "density in pounds per cubic foot"), )),
    "sheetThicknessIn": ("Thickness of sheet for a boxing: down by a quarter inch or less over a whole inch, else up. Common practice.", (("boxing_in", "finished height of the boxing, 1 to 24"), )),
    "supportFactor": ("IFD at 65 % over IFD at 25 %.", (("ifd25_lbf", "IFD (ILD) at 25 %"), ("ifd65_lbf", "IFD at 65 %"), )),
    "ildLowLbf": ("Softest firmness any source names for the use. A rule of thumb: a trial sit decides.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_in", "thickness of the foam, 1/2 to 12"), ("base", "what it lies on: board, webbing, springs"), )),
    "ildHighLbf": ("Firmest firmness any source names for the use. A rule of thumb: a trial sit decides.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_in", "thickness of the foam, 1/2 to 12"), ("base", "what it lies on: board, webbing, springs"), )),
    "ildTargetLbf": ("Firmness to ask for. A rule of thumb: a trial sit decides. Mind the fire rules of the place.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_in", "thickness of the foam, 1/2 to 12"), ("base", "what it lies on: board, webbing, springs"), )),
    "foamDensityLowPcf": ("Least density to ask for. Mind the fire rules of the place.", (("use", "seat, back, arm, headrest, bed, berth, bench, booth"), ("duty", "light, normal, heavy, severe"), ("thickness_in", "thickness of the foam, 1/2 to 12"), ("base", "what it lies on: board, webbing, springs"), )),
    "sinkIn": ("How far a sitter presses the foam in, on a rigid base. An estimate.", (("thickness_in", "thickness of the foam"), ("ifd25_lbf", "IFD (ILD) at 25 %"), ("ifd65_lbf", "IFD at 65 %; 0 when not known: 1.8 times that at 25 % is taken"), ("sitter_lb", "weight of the sitter, 22 to 551"), )),
    "bottomsOut": ("1 when the sitter presses the foam to the end of its curve (65 %), else 0. An estimate.", (("thickness_in", "thickness of the foam"), ("ifd25_lbf", "IFD (ILD) at 25 %"), ("ifd65_lbf", "IFD at 65 %; 0 when not known: 1.8 times that at 25 % is taken"), ("sitter_lb", "weight of the sitter, 22 to 551"), )),
    "markupCents": ("Price for a cost with a markup on the cost, rounded half up.", (("cost_cents", "cost in whole cents"), ("markup_percent", "0 to 10000"), )),
    "marginCents": ("Price for a cost that leaves a margin of the price, rounded half up.", (("cost_cents", "cost in whole cents"), ("margin_percent", "0 to 99"), )),
    "marginPercent": ("Share of the price that is not cost: (price - cost) / price.", (("cost_cents", "cost in whole cents"), ("price_cents", "price in whole cents"), )),
    "markupPercent": ("What a price adds to the cost: (price - cost) / cost.", (("cost_cents", "cost in whole cents"), ("price_cents", "price in whole cents"), )),
    "markupToMarginPercent": ("The margin that a markup leaves: m / (1 + m).", (("markup_percent", "above -100"), )),
    "marginToMarkupPercent": ("The markup that leaves a margin: g / (1 - g).", (("margin_percent", "under 100"), )),
    "shopRateCents": ("Price of an hour at the bench: wage with its burden, a share of the overhead, and a margin. Each part is rounded half up.", (("wage_cents", "hourly wage"), ("burden_percent", "on top of the wage, 0 to 300"), ("overhead_cents", "overhead of a year"), ("hours", "hours of a year that can be sold, all workers"), ("margin_percent", "margin of the rate that is charged"), )),
    "labourCents": ("Price of time at a rate, rounded half up.", (("hours", "time; a thousandth of a second is the least step"), ("rate_cents", "rate of an hour"), )),
    "learningHours": ("Time of several pieces alike when each doubling of their number leaves a share of the time of one (unit model).", (("first_hours", "time of the first piece"), ("count", "pieces, 1 or more"), ("rate_percent", "50 to 100; take it from your own bench"), )),
    "taxCents": ("Tax on an amount, rounded once.", (("amount_cents", "amount without tax"), ("rate_percent", "rate of the tax"), ("rounding", "half-up, half-even, half-down, up, down, ceiling or floor; when left out: half-up"), )),
    "taxInsideCents": ("Tax contained in a price: gross x rate / (1 + rate), rounded once. The rate counts to a hundredth of a percent.", (("gross_cents", "price with tax"), ("rate_percent", "rate of the tax, from 0"), ("rounding", "half-up, half-even, half-down, up, down, ceiling or floor; when left out: half-up"), )),
    "roundCents": ("Rounds an amount to a step, such as 5 cents.", (("amount_cents", "amount in whole cents"), ("step_cents", "the step, above zero"), ("rounding", "half-up, half-even, half-down, up, down, ceiling or floor; when left out: half-up"), )),
    "allocateCents": ("Splits an amount over weights so that the parts add up to it: one part below the other (an array formula).", (("whole_cents", "amount to split"), ("weights", "whole numbers, such as cents or minutes"), )),
    "splitCents": ("Splits an amount into equal parts that add up to it, the larger ones first (an array formula).", (("whole_cents", "amount to split"), ("count", "parts, 1 to 2000"), )),
    "goodsCents": ("What a list of pieces costs cut from a roll: laid out by a short search, ordered to the seller's step and priced.", (("pieces", "a range with the columns width across the goods in inches, length in inches, count"), ("roll_width_in", "width of the goods"), ("price_cents", "price of a yard"), ("repeat_in", "vertical repeat; when left out: plain goods"), ("step_yd", "step the seller cuts to; when left out: none"), )),
}


class Functions:
    """One method for each function of the table."""

    def apiLevel(self):
        return scalar("APILEVEL", "", ())

    def versionText(self):
        return scalar("VERSIONTEXT", "", ())

    def readLengthIn(self, lengthText):
        return scalar("READLENGTHIN", "t", (lengthText,))

    def readLengthMm(self, lengthText):
        return scalar("READLENGTHMM", "t", (lengthText,))

    def readAreaSqft(self, areaText):
        return scalar("READAREASQFT", "t", (areaText,))

    def readThicknessMm(self, thicknessText):
        return scalar("READTHICKNESSMM", "t", (thicknessText,))

    def fractionText(self, lengthIn, parts, rounding):
        return scalar("FRACTIONTEXT", "nnt", (lengthIn, parts, rounding))

    def feetInchText(self, lengthIn, parts, rounding):
        return scalar("FEETINCHTEXT", "nnt", (lengthIn, parts, rounding))

    def roundUpIn(self, lengthIn, stepIn):
        return scalar("ROUNDUPIN", "nn", (lengthIn, stepIn))

    def inToMm(self, lengthIn):
        return scalar("INTOMM", "n", (lengthIn,))

    def mmToIn(self, lengthMm):
        return scalar("MMTOIN", "n", (lengthMm,))

    def ydToM(self, lengthYd):
        return scalar("YDTOM", "n", (lengthYd,))

    def mToYd(self, lengthM):
        return scalar("MTOYD", "n", (lengthM,))

    def sqftToSqdm(self, areaSqft):
        return scalar("SQFTTOSQDM", "n", (areaSqft,))

    def sqdmToSqft(self, areaSqdm):
        return scalar("SQDMTOSQFT", "n", (areaSqdm,))

    def ozToMm(self, thicknessOz):
        return scalar("OZTOMM", "n", (thicknessOz,))

    def mmToOz(self, thicknessMm):
        return scalar("MMTOOZ", "n", (thicknessMm,))

    def markedAreaSqft(self, mark, notation):
        return scalar("MARKEDAREASQFT", "tt", (mark, notation))

    def allowanceIn(self, finish):
        return scalar("ALLOWANCEIN", "t", (finish,))

    def allowanceBasisText(self, finish):
        return scalar("ALLOWANCEBASISTEXT", "t", (finish,))

    def cutSizeIn(self, finishedIn, firstIn, secondIn, stretchPercent):
        return scalar("CUTSIZEIN", "nnnn", (finishedIn, firstIn, secondIn, stretchPercent))

    def cutForFinishIn(self, finishedIn, first, second):
        return scalar("CUTFORFINISHIN", "ntt", (finishedIn, first, second))

    def leatherSeamIn(self, finishedIn):
        return scalar("LEATHERSEAMIN", "n", (finishedIn,))

    def stretchPercent(self, slackIn, pulledIn):
        return scalar("STRETCHPERCENT", "nn", (slackIn, pulledIn))

    def easePercent(self, firstIn, secondIn):
        return scalar("EASEPERCENT", "nn", (firstIn, secondIn))

    def easeText(self, firstIn, secondIn, goods):
        return scalar("EASETEXT", "nnt", (firstIn, secondIn, goods))

    def easeMarksIn(self, firstIn, secondIn, spacingIn):
        return column("EASEMARKSIN", "nnn", (firstIn, secondIn, spacingIn))

    def weltStripIn(self, cordIn, tailIn, clothIn, stepIn):
        return scalar("WELTSTRIPIN", "nnnn", (cordIn, tailIn, clothIn, stepIn))

    def doubleWeltStripIn(self, singleIn):
        return scalar("DOUBLEWELTSTRIPIN", "n", (singleIn,))

    def weltCutIn(self, runsIn, stripIn, longestIn):
        return scalar("WELTCUTIN", "rnn", (runsIn, stripIn, longestIn))

    def boxingWidthIn(self, perimeterIn, depthIn, longestIn, seamIn):
        return scalar("BOXINGWIDTHIN", "nnnn", (perimeterIn, depthIn, longestIn, seamIn))

    def boxingLengthIn(self, perimeterIn, depthIn, longestIn, seamIn):
        return scalar("BOXINGLENGTHIN", "nnnn", (perimeterIn, depthIn, longestIn, seamIn))

    def boxingJoinsIn(self, perimeterIn, depthIn, longestIn, seamIn):
        return column("BOXINGJOINSIN", "nnnn", (perimeterIn, depthIn, longestIn, seamIn))

    def biasLengthIn(self, widthIn, heightIn, stripIn, seamIn):
        return scalar("BIASLENGTHIN", "nnnn", (widthIn, heightIn, stripIn, seamIn))

    def biasSquareIn(self, lengthIn, stripIn, seamIn):
        return scalar("BIASSQUAREIN", "nnn", (lengthIn, stripIn, seamIn))

    def tuftSpacingIn(self, faceIn, depthIn, rule):
        return scalar("TUFTSPACINGIN", "nnt", (faceIn, depthIn, rule))

    def tuftCutWidthIn(self, widthIn, heightIn, across, down, depthIn, rule):
        return scalar("TUFTCUTWIDTHIN", "nnnnnt", (widthIn, heightIn, across, down, depthIn, rule))

    def tuftCutHeightIn(self, widthIn, heightIn, across, down, depthIn, rule):
        return scalar("TUFTCUTHEIGHTIN", "nnnnnt", (widthIn, heightIn, across, down, depthIn, rule))

    def tuftButtons(self, widthIn, heightIn, across, down, depthIn, rule):
        return scalar("TUFTBUTTONS", "nnnnnt", (widthIn, heightIn, across, down, depthIn, rule))

    def channelCoverIn(self, widthIn, riseIn):
        return scalar("CHANNELCOVERIN", "nn", (widthIn, riseIn))

    def pleatClothIn(self, kind, finishedIn, count, underfoldIn):
        return scalar("PLEATCLOTHIN", "tnnn", (kind, finishedIn, count, underfoldIn))

    def ringIn(self, widthIn, depthIn):
        return scalar("RINGIN", "nn", (widthIn, depthIn))

    def bolsterGirthIn(self, diameterIn, seamIn):
        return scalar("BOLSTERGIRTHIN", "nn", (diameterIn, seamIn))

    def sumAreaSqft(self, pieces):
        return scalar("SUMAREASQFT", "r", (pieces,))

    def buyAreaSqft(self, netSqft, wastePercent):
        return scalar("BUYAREASQFT", "nn", (netSqft, wastePercent))

    def hidesToBuy(self, netSqft, hideSqft, wastePercent):
        return scalar("HIDESTOBUY", "nnn", (netSqft, hideSqft, wastePercent))

    def leatherForClothSqft(self, lengthYd, widthIn, yieldPercent):
        return scalar("LEATHERFORCLOTHSQFT", "nnn", (lengthYd, widthIn, yieldPercent))

    def repeatLengthIn(self, needIn, repeatIn):
        return scalar("REPEATLENGTHIN", "nn", (needIn, repeatIn))

    def yardageYd(self, pieces, rollWidthIn, repeatIn, stepYd, selvageIn):
        return scalar("YARDAGEYD", "rnnnn", (pieces, rollWidthIn, repeatIn, stepYd, selvageIn))

    def widthByChartYd(self, lengthYd, fromIn, toIn):
        return scalar("WIDTHBYCHARTYD", "nnn", (lengthYd, fromIn, toIn))

    def widthByAreaYd(self, lengthYd, fromIn, toIn):
        return scalar("WIDTHBYAREAYD", "nnn", (lengthYd, fromIn, toIn))

    def patternedYd(self, plainYd, widthIn, repeatIn, acrossIn):
        return scalar("PATTERNEDYD", "nnnn", (plainYd, widthIn, repeatIn, acrossIn))

    def nailCount(self, sidesIn, headIn, pitchIn):
        return scalar("NAILCOUNT", "rnn", (sidesIn, headIn, pitchIn))

    def webbingIn(self, widthIn, depthIn, stripIn):
        return scalar("WEBBINGIN", "nnn", (widthIn, depthIn, stripIn))

    def zipChainIn(self, openingsIn):
        return scalar("ZIPCHAININ", "r", (openingsIn,))

    def threadSize(self, size):
        return scalar("THREADSIZE", "t", (size,))

    def threadTex(self, size):
        return scalar("THREADTEX", "t", (size,))

    def countToTex(self, count, system):
        return scalar("COUNTTOTEX", "nt", (count, system))

    def texToCount(self, countTex, system):
        return scalar("TEXTOCOUNT", "nt", (countTex, system))

    def threadForText(self, goods, layers):
        return scalar("THREADFORTEXT", "tn", (goods, layers))

    def needleForText(self, goods, layers):
        return scalar("NEEDLEFORTEXT", "tn", (goods, layers))

    def needlesText(self, size, goods):
        return scalar("NEEDLESTEXT", "tt", (size, goods))

    def stitchLengthMm(self, stitchesPerIn):
        return scalar("STITCHLENGTHMM", "n", (stitchesPerIn,))

    def threadUseYd(self, seamIn, thicknessMm, stitchesPerIn, stitch):
        return scalar("THREADUSEYD", "nnnn", (seamIn, thicknessMm, stitchesPerIn, stitch))

    def coneLengthYd(self, size, netOz):
        return scalar("CONELENGTHYD", "tn", (size, netOz))

    def seamStrengthLbfIn(self, size, fibre, stitchesPerIn):
        return scalar("SEAMSTRENGTHLBFIN", "ttn", (size, fibre, stitchesPerIn))

    def boardFeet(self, lengthIn, widthIn, thicknessIn, count):
        return scalar("BOARDFEET", "nnnn", (lengthIn, widthIn, thicknessIn, count))

    def foamDensityPcf(self, massLb, lengthIn, widthIn, thicknessIn):
        return scalar("FOAMDENSITYPCF", "nnnn", (massLb, lengthIn, widthIn, thicknessIn))

    def foamMassLb(self, lengthIn, widthIn, thicknessIn, densityPcf):
        return scalar("FOAMMASSLB", "nnnn", (lengthIn, widthIn, thicknessIn, densityPcf))

    def sheetThicknessIn(self, boxingIn):
        return scalar("SHEETTHICKNESSIN", "n", (boxingIn,))

    def supportFactor(self, ifd25Lbf, ifd65Lbf):
        return scalar("SUPPORTFACTOR", "nn", (ifd25Lbf, ifd65Lbf))

    def ildLowLbf(self, use, duty, thicknessIn, base):
        return scalar("ILDLOWLBF", "ttnt", (use, duty, thicknessIn, base))

    def ildHighLbf(self, use, duty, thicknessIn, base):
        return scalar("ILDHIGHLBF", "ttnt", (use, duty, thicknessIn, base))

    def ildTargetLbf(self, use, duty, thicknessIn, base):
        return scalar("ILDTARGETLBF", "ttnt", (use, duty, thicknessIn, base))

    def foamDensityLowPcf(self, use, duty, thicknessIn, base):
        return scalar("FOAMDENSITYLOWPCF", "ttnt", (use, duty, thicknessIn, base))

    def sinkIn(self, thicknessIn, ifd25Lbf, ifd65Lbf, sitterLb):
        return scalar("SINKIN", "nnnn", (thicknessIn, ifd25Lbf, ifd65Lbf, sitterLb))

    def bottomsOut(self, thicknessIn, ifd25Lbf, ifd65Lbf, sitterLb):
        return scalar("BOTTOMSOUT", "nnnn", (thicknessIn, ifd25Lbf, ifd65Lbf, sitterLb))

    def markupCents(self, costCents, markupPercent):
        return scalar("MARKUPCENTS", "nn", (costCents, markupPercent))

    def marginCents(self, costCents, marginPercent):
        return scalar("MARGINCENTS", "nn", (costCents, marginPercent))

    def marginPercent(self, costCents, priceCents):
        return scalar("MARGINPERCENT", "nn", (costCents, priceCents))

    def markupPercent(self, costCents, priceCents):
        return scalar("MARKUPPERCENT", "nn", (costCents, priceCents))

    def markupToMarginPercent(self, markupPercent):
        return scalar("MARKUPTOMARGINPERCENT", "n", (markupPercent,))

    def marginToMarkupPercent(self, marginPercent):
        return scalar("MARGINTOMARKUPPERCENT", "n", (marginPercent,))

    def shopRateCents(self, wageCents, burdenPercent, overheadCents, hours, marginPercent):
        return scalar("SHOPRATECENTS", "nnnnn", (wageCents, burdenPercent, overheadCents, hours, marginPercent))

    def labourCents(self, hours, rateCents):
        return scalar("LABOURCENTS", "nn", (hours, rateCents))

    def learningHours(self, firstHours, count, ratePercent):
        return scalar("LEARNINGHOURS", "nnn", (firstHours, count, ratePercent))

    def taxCents(self, amountCents, ratePercent, rounding):
        return scalar("TAXCENTS", "nnt", (amountCents, ratePercent, rounding))

    def taxInsideCents(self, grossCents, ratePercent, rounding):
        return scalar("TAXINSIDECENTS", "nnt", (grossCents, ratePercent, rounding))

    def roundCents(self, amountCents, stepCents, rounding):
        return scalar("ROUNDCENTS", "nnt", (amountCents, stepCents, rounding))

    def allocateCents(self, wholeCents, weights):
        return column("ALLOCATECENTS", "nr", (wholeCents, weights))

    def splitCents(self, wholeCents, count):
        return column("SPLITCENTS", "nn", (wholeCents, count))

    def goodsCents(self, pieces, rollWidthIn, priceCents, repeatIn, stepYd):
        return scalar("GOODSCENTS", "rnnnn", (pieces, rollWidthIn, priceCents, repeatIn, stepYd))


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
