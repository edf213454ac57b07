"""Reads every DXF file of a folder with ezdxf, an independent reader, and writes as
JSON what it finds in each: the unit and the measurement of its header, how many
faults its audit has, and the box round the closed lines of the layer CUT.
"""
import json
import pathlib
import sys

import ezdxf
from ezdxf import bbox

found = {}
for file in sorted(pathlib.Path(sys.argv[1]).glob("*.dxf")):
    doc = ezdxf.readfile(file)
    audit = doc.audit()
    cut = [e for e in doc.modelspace().query("POLYLINE[layer=='CUT']") if e.is_closed]
    box = bbox.extents(cut)
    found[file.name] = {
        "units": doc.header.get("$INSUNITS", 0),
        "metric": doc.header.get("$MEASUREMENT", 0),
        "faults": len(audit.errors) + len(audit.fixes),
        "low": [box.extmin.x, box.extmin.y],
        "high": [box.extmax.x, box.extmax.y],
    }
json.dump(found, sys.stdout)
