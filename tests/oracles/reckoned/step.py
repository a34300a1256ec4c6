"""The volume of a STEP solid by Open CASCADE."""


def at_hand():
    """Whether the package is there."""
    try:
        import OCP.STEPControl  # noqa: F401
    except ImportError:
        return False
    return True


def volume(path):
    """The volume of the one valid solid of a file, mm3; none where there is not one."""
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
    if count != 1 or not BRepCheck_Analyzer(shape).IsValid():
        return None
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties)
    return properties.Mass()
