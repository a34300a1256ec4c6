"""How closely sizes are kept: as the bench says, else as the manual's table does."""

from .language import INCH

# ISO 2768-1, linear sizes, over 0.5 mm: up to and including, either way, mm.
FINE = ((6, 0.05), (30, 0.1), (120, 0.15), (400, 0.2))
MEDIUM = ((6, 0.1), (30, 0.2), (120, 0.3), (400, 0.5))
# Common practice, no published source, as the manual says.
DRILL, NIB = 0.15, 1.0
# What does not swell under a die.
METALS = {"brass", "bronze", "copper", "aluminium", "silver", "titanium", "steel", "stainless-steel"}


class Hand:
    def __init__(self, bench, file):
        """Of a bench's lines, none where no bench is said, in a file's units."""
        self.said, self.caliper = {}, 0.0
        unit = INCH if file.inches else 1.0
        for line in bench or []:
            if line.words[0] == "keeps":
                self.said[line.words[1]] = float(line.words[2]) * unit
            elif line.words[0] == "caliper":
                self.caliper = float(line.words[1]) * unit

    def keeps(self, kind, size):
        if kind in self.said:
            return self.said[kind]
        if kind in ("drill", "nib"):
            return DRILL if kind == "drill" else NIB
        return within(MEDIUM if kind == "depth" else FINE, size)

    def ranges(self, solid):
        """For each size of a part how much less and more than written it may come out, mm."""
        found = {}
        for key, (written, word) in solid.sizes.items():
            if solid.part.bought:
                low, high = -self.caliper, self.caliper
            elif key[0] == "length":
                low, high = both(self.keeps("length", written))
            elif key[0] == "plane":
                low, high = both(self.keeps("depth" if word == "inside" else "shoulder", written))
            else:
                low, high = self.diameter(solid, key, written, word)
            if (low, high) != (0.0, 0.0):
                found[key] = low, high
        return found

    def diameter(self, solid, key, written, word):
        if word == "drill":
            return 0.0, self.keeps("drill", written)
        if word in ("bore", "ream", "recess", "taper", "countersink"):
            return both(self.keeps("bore", written))
        if word == "outside" and written <= 0.0:
            return 0.0, 0.0
        if word == "tenon":
            thread = threaded(solid, key[1])
            if thread is not None:
                # What a thread is cut on keeps the limits of its class; plastics the lower half,
                # since they swell under the die.
                least, most = thread.limits()
                if not metal(solid):
                    most = (least + most) / 2
                return min(least - written, 0.0), max(most - written, 0.0)
        return both(self.keeps("dia", written))


def both(within):
    return -within, within


def within(table, size):
    return next((value for upto, value in table if size <= upto), table[-1][1])


def threaded(solid, maker):
    """The outside thread that is cut on a tenon."""
    at, to, end = solid.tenons[maker]
    return next((it[3] for it in solid.threads if it[0] == end and not it[4] and it[1] < to and it[2] > at), None)


def metal(solid):
    """Whether a part is of metal where it begins."""
    words = next(line.words for line in solid.part.lines if line.words[0] == "blank")
    file, lets = solid.part.file, {**solid.part.file.lets, **solid.part.lets}
    if words[1] != "of":
        words = ["blank"] + file.blanks[words[1]]
    name = words[2]
    name = lets[name][0] if name in lets else name
    kind = file.materials.get(name, {}).get("kind", [name])[0]
    return kind in METALS
