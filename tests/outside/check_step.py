"""Reads a STEP file with Open CASCADE (cadquery-ocp) and compares it with what it should hold.

    check_step.py FILE expected.json

expected.json: {"solids": [{"name": ..., "volume_m3": ...}, ...]}, in any order. Checked: length
unit, product names, number of solids, validity (BRepCheck) of every solid, each volume to 1e-6
relative, and that no two solids share any volume.
"""

import json
import sys
from pathlib import Path

from OCP.Bnd import Bnd_Box
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from OCP.IFSelect import IFSelect_RetDone
from OCP.STEPControl import STEPControl_Reader
from OCP.TopAbs import TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

RELATIVE = 1e-6
MILLIMETRES3 = 1e9
# Shared volume beyond this share of the smaller solid is an overlap; the kernel's own tolerance
# of 1e-4 mm over a face of a thin plate comes to less.
OVERLAP = 1e-5


def volume(shape):
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties, 1e-9)
    return properties.Mass()


def box(shape):
    bounds = Bnd_Box()
    BRepBndLib.Add_s(shape, bounds)
    return bounds


def solids_of(shape):
    explorer = TopExp_Explorer(shape, TopAbs_SOLID)
    while explorer.More():
        yield TopoDS.Solid_s(explorer.Current()) if hasattr(TopoDS, "Solid_s") else explorer.Current()
        explorer.Next()


def read(file):
    reader = STEPControl_Reader()
    if reader.ReadFile(str(file)) != IFSelect_RetDone:
        raise SystemExit(f"{file}: the reader refused it")
    reader.TransferRoots()
    return list(solids_of(reader.OneShape()))


def read_names(file):
    """(name, volume) of every part, by the reader that keeps product names."""
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name
    from OCP.collections import Sequence_TDF_Label
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

    document = TDocStd_Document(TCollection_ExtendedString("check"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    if reader.ReadFile(str(file)) != IFSelect_RetDone or not reader.Transfer(document):
        raise SystemExit(f"{file}: the reader of names refused it")
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    labels = Sequence_TDF_Label()
    tool.GetShapes(labels)
    found = []
    for at in range(1, labels.Length() + 1):
        label = labels.Value(at)
        if XCAFDoc_ShapeTool.IsAssembly_s(label) or not XCAFDoc_ShapeTool.IsSimpleShape_s(label):
            continue
        name = TDataStd_Name()
        if label.FindAttribute(TDataStd_Name.GetID_s(), name):
            for solid in solids_of(XCAFDoc_ShapeTool.GetShape_s(label)):
                found.append((name.Get().ToExtString(), volume(solid) / MILLIMETRES3))
    return found


def main():
    file, expected = sys.argv[1], json.loads(Path(sys.argv[2]).read_text())["solids"]
    faults = []
    if "SI_UNIT(.MILLI.,.METRE.)" not in Path(file).read_text():
        faults.append("the length unit is not stated as millimetre")
    solids = read(file)
    if len(solids) != len(expected):
        faults.append(f"{len(solids)} solids, expected {len(expected)}")
    for at, solid in enumerate(solids):
        if not BRepCheck_Analyzer(solid).IsValid():
            faults.append(f"solid {at} is not valid")
    faults += compare(read_names(file), expected)
    faults += overlaps(solids)
    print("\n".join(f"{file}: {fault}" for fault in faults) or f"step: {len(solids)} solids valid, volumes right, none overlap")
    return bool(faults)


def compare(found, expected):
    found = sorted(found)
    wanted = sorted((solid["name"], solid["volume_m3"]) for solid in expected)
    if [name for name, _ in found] != [name for name, _ in wanted]:
        return [f"names {[name for name, _ in found]}, expected {[name for name, _ in wanted]}"]
    return [
        f"{name}: volume {have}, expected {want}"
        for (name, have), (_, want) in zip(found, wanted)
        if not abs(have - want) <= RELATIVE * want
    ]


def overlaps(solids):
    boxes, volumes = [box(solid) for solid in solids], [volume(solid) for solid in solids]
    for a in range(len(solids)):
        for b in range(a + 1, len(solids)):
            if boxes[a].IsOut(boxes[b]):
                continue
            common = BRepAlgoAPI_Common(solids[a], solids[b])
            if not common.IsDone():
                yield f"solids {a} and {b}: their common part could not be worked out"
            elif abs(volume(common.Shape())) > OVERLAP * min(volumes[a], volumes[b]):
                yield f"solids {a} and {b} share {volume(common.Shape()):.6g} mm3"


if __name__ == "__main__":
    sys.exit(main())
