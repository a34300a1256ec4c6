"""The solids of a STEP file, as Open CASCADE reads them."""


def looks(path):
    """Each solid's volume in mm3 and its colour as (red, green, blue) of 0 to 1, as an XDE document has it."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps
    from OCP.Quantity import Quantity_Color, Quantity_TOC_sRGB
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.collections import Sequence_TDF_Label
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_ColorSurf, XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    reader = STEPCAFControl_Reader()
    reader.SetColorMode(True)
    reader.ReadFile(str(path))
    reader.Transfer(document)
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    colours = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    labels = Sequence_TDF_Label()
    shapes.GetFreeShapes(labels)
    found = []
    for at in range(1, labels.Length() + 1):
        shape = shapes.GetShape_s(labels.Value(at))
        properties = GProp_GProps()
        BRepGProp.VolumeProperties_s(shape, properties)
        colour = Quantity_Color()
        has = colours.GetColor(shape, XCAFDoc_ColorSurf, colour)
        found.append((properties.Mass(), tuple(colour.Values(Quantity_TOC_sRGB)) if has else None))
    return found


def read(path):
    """How many solids it holds, whether they are valid, their volume in mm3."""
    from OCP.BRepCheck import BRepCheck_Analyzer
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps
    from OCP.STEPControl import STEPControl_Reader
    from OCP.TopAbs import TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    reader = STEPControl_Reader()
    reader.ReadFile(str(path))
    reader.TransferRoots()
    shape = reader.OneShape()
    solids, count = TopExp_Explorer(shape, TopAbs_SOLID), 0
    while solids.More():
        count += 1
        solids.Next()
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties)
    return count, BRepCheck_Analyzer(shape).IsValid(), properties.Mass()


def closed(path):
    """Whether every edge of every shell is taken by two faces, once from either end, as the kernel finds them."""
    from OCP.BRep import BRep_Tool
    from OCP.STEPControl import STEPControl_Reader
    from OCP.ShapeAnalysis import ShapeAnalysis_Shell
    from OCP.TopAbs import TopAbs_SHELL
    from OCP.TopExp import TopExp_Explorer

    reader = STEPControl_Reader()
    reader.ReadFile(str(path))
    reader.TransferRoots()
    shells, fine = TopExp_Explorer(reader.OneShape(), TopAbs_SHELL), False
    while shells.More():
        shell, found = shells.Current(), ShapeAnalysis_Shell()
        found.LoadShells(shell)
        wrong = found.CheckOrientedShells(shell, True) or found.HasFreeEdges() or found.HasBadEdges()
        if wrong or not BRep_Tool.IsClosed_s(shell):
            return False
        fine = True
        shells.Next()
    return fine
