"""The solids of a STEP file, as Open CASCADE reads them."""


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
