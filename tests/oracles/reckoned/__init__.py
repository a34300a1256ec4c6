"""A second reckoning of what Quillet says, by its own reader and its own sums.

Nothing here asks the program for a shape: designs are read from their text, outsides and threads are
worked out from the manual's definitions and the standards, solids are summed slice by slice.
"""
