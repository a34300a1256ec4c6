"""A part as it is written, cut: its outside, its holes, its threads, its broken corners."""

import math

from . import outline
from .language import NotRead, Sums
from .outline import Surface, cone, level
from .quadrature import volume
from .side import Side
from .threads import Thread

WORDS = {"to", "for", "at", "through", "inside", "outside", "point", "angle", "clock", "takes", "as", "dia",
         "smooth", "dome", "bead", "cove", "step", "round", "chamfer", "from", "gap", "spigot", "clearance", "on", "indexed"}


def phrases(words):
    """The words before the first key word, and those behind each."""
    found, key = {None: []}, None
    for word in words:
        if word in WORDS:
            key = word
            found[key] = []
        else:
            found[key].append(word)
    return found


def side_of(word, words):
    """The side of the metal that a cut with a reach is on."""
    if word == "thread":
        return "inside" if "inside" in words else "outside"
    if word in ("tenon", "relief", "groove"):
        return "outside"
    return "inside" if word in ("drill", "bore", "ream", "recess", "taper") else None


class Solid:
    """Squares of the radius of a part, outside and inside, and where they may jump."""

    def __init__(self, part, off=None):
        """`off`: how much sizes come out other than written, by their keys in `sizes`."""
        self.part, self.sums = part, Sums(part)
        self.off, self.sizes, self.planes, self.tenons = off or {}, {}, {}, {}
        self.length = None
        self.outer, self.inner, self.threads, self.edges = [], [], [], []
        self.jumps, self.unsaid = [], []
        blocks = []
        for line in part.lines:
            word = line.words[0]
            if word == "length":
                text = line.words[1].split("..")[0]
                self.drawn = self.sums.length([text] + line.words[2:])
                self.length = self.size(("length",), self.drawn)
            elif word == "from":
                blocks.append(line)
        if self.length is None:
            raise NotRead("a part without a length")
        self.side = Side(self)
        self.tube()
        for line in part.lines:
            if line.words[0] == "outside":
                self.outside(line)
        for number, block in enumerate(blocks):
            for nth, cut in enumerate(block.block):
                self.making = (number, nth)
                self.cut(block.words[1], cut.words)
        self.assumed()
        self.turned()
        for line in part.lines:
            for cut in line.block or [] if line.words[0] == "side" else []:
                self.side.line(cut.words)
        self.jumps += self.side.jumps

    def tube(self):
        """A tube brings its bore, and its outside where none is said."""
        blanks = [it.words for it in self.part.lines if it.words[0] == "blank" and "tube" in it.words]
        for words in blanks:
            at, wall = words.index("tube"), words.index("wall")
            dia, wall = self.sums.length(words[at + 1 : wall]), self.sums.length([words[wall + 1]])
            self.inner.append(level(0.0, self.length, dia - 2 * wall))
            if not any(it.words[0] == "outside" for it in self.part.lines):
                self.outer.append(level(0.0, self.length, dia))

    def outside(self, line):
        if line.block is None:
            dia = self.dia(0, self.sums.length(phrases(line.words[1:])["dia"]))
            stations = [(0.0, dia, dia, None, None), (self.length, dia, dia, None, None)]
            corners = []
        else:
            said = sorted((self.station(it.words, nth) for nth, it in enumerate(line.block)), key=lambda it: it[0][0])
            stations = [it for it, _ in said]
            corners = [(nth, it[0], *edge) for nth, (it, edge) in enumerate(said) if edge]
        self.stations = stations
        surfaces = outline.through(stations)
        for nth, it in enumerate(surfaces):
            it.maker = ("outside", nth)
        for nth, z, word, size in corners:
            before = next((it for it in surfaces if it.end == z), None)
            after = next((it for it in surfaces if it.start == z), None)
            made = outline.corner(z, before, after, size, word == "round")
            for it in made:
                it.maker = ("corner", nth)
            self.outer += made
        self.outer += surfaces
        self.jumps += [z for it in self.outer for z in (it.start, it.end)]

    def station(self, words, nth):
        said = phrases(words)
        place, end = said["at"], self.part.ends[0]
        if place[0] in self.part.ends:
            z = 0.0 if place[0] == end else self.length
        else:
            if "from" in said:
                end = said["from"][0]
            z = self.along(end, self.depth("outside", end, self.sums.length(place)))
        dia = self.dia(nth, self.sums.length(said["dia"]))
        leaving = self.dia((nth, "step"), self.sums.length(said["step"])) if "step" in said else dia
        shape = next((it for it in ("smooth", "dome", "bead", "cove") if it in said), None)
        size = self.sums.length(said[shape]) if said.get(shape) else None
        edges = [(word, self.sums.length(said[word])) for word in ("round", "chamfer") if word in said]
        return (z, dia, leaving, shape, size), edges[0] if edges else None

    def cut(self, end, words):
        word, said = words[0], phrases(words[1:])
        if word in ("accept", "limit"):
            return
        at = self.sums.length(said["at"]) if "at" in said else 0.0
        if "for" in said and said["for"] != ["because"]:
            to = at + self.sums.length(said["for"])
        elif "to" in said and word != "taper":
            to = self.sums.length(said["to"])
        else:
            to = self.drawn
        through = "through" in said
        size = said[None]
        side = side_of(word, words)
        if side:
            at, to = self.depth(side, end, at), self.depth(side, end, to)
        if "on" in said:
            point = 0.0 if word == "bore" else self.sums.value(said.get("point", ["118"]))
            to, point = (self.drawn, 0.0) if through else (to, point)
            self.side.circle(end, at, to, self.sums.length(size), point, said)
        elif word in ("tenon", "relief", "groove"):
            self.tenon(end, at, to, word, size)
        elif word == "drill":
            dia = self.dia(self.making, self.sums.length(size), word)
            self.add(self.inner, end, level(0.0, to, dia))
            if not through:
                point = self.sums.value(said["point"]) if "point" in said else 118.0
                tip = to + dia / 2 / math.tan(math.radians(point / 2))
                self.add(self.inner, end, cone(to, tip, dia, 0.0), "point")
        elif word in ("bore", "ream", "recess"):
            start = 0.0 if word == "ream" else at
            self.add(self.inner, end, level(start, to, self.dia(self.making, self.sums.length(size), word)))
        elif word == "taper":
            # Its `to` says the other diameter, its `for` how long it is.
            near, far = self.sums.length(size), self.sums.length(said["to"])
            ends = self.dia(self.making, near, word), self.dia((*self.making, "far"), far, word)
            self.add(self.inner, end, cone(at, to, *ends))
        elif word == "countersink":
            dia = self.dia(self.making, self.sums.length(size), word)
            angle = self.sums.value(said["angle"]) if "angle" in said else 90.0
            deep = dia / 2 / math.tan(math.radians(angle / 2))
            self.add(self.inner, end, cone(0.0, deep, dia, 0.0), "countersink")
        elif word == "thread":
            named = self.part.file.threads.get(size[0], size)
            thread, inside = Thread(named), "inside" in said
            thread.maker = self.making
            self.threads.append((end, at, to, thread, inside))
            self.jumps += [self.along(end, at), self.along(end, to)]
        elif word in ("chamfer", "round"):
            self.edges.append((end, self.sums.length(words[1:]), word == "round"))
        else:
            raise NotRead(f"the cut {word}")

    def tenon(self, end, at, to, word, size):
        self.tenons[self.making] = at, to, end
        if word == "relief" or word == "groove" or size:
            self.add(self.outer, end, level(at, to, self.dia(self.making, self.sums.length(size), word)))
        else:
            self.unsaid.append((end, at, to, self.making))

    def assumed(self):
        """A tenon without a diameter is in the middle of its thread's limits."""
        for end, at, to, self.making in self.unsaid:
            on = next(it for it in self.threads if it[0] == end and not it[4] and it[1] < to)
            self.add(self.outer, end, level(at, to, self.dia(self.making, on[3].tenon(), "tenon")))

    def size(self, key, written, word=None):
        """A size as it comes out."""
        self.sizes[key] = (written, word)
        return written + self.off.get(key, 0.0)

    def dia(self, of, written, word="outside"):
        return self.size(("dia", of), written, word)

    def depth(self, side, end, written):
        """How far a plane lies from the end it is measured from. Planes of one side that are drawn
        at one place are one plane: it is kept as it was written first, stations before cuts."""
        first = end == self.part.ends[0]
        z = written if first else self.drawn - written
        if abs(z) < 2e-6 or abs(z - self.drawn) < 2e-6:
            return 0.0 if (abs(z) < 2e-6) == first else self.length
        key = next((it for it in self.planes if it[0] == side and abs(it[1] - z) < 2e-6), None)
        if key is None:
            key = (side, z)
            self.planes[key] = (first, ("plane", side, first, round(written, 6)), written)
        from_first, size, drawn = self.planes[key]
        kept = self.size(size, drawn, side)
        return kept if from_first == first else self.length - kept

    def along(self, end, inward):
        return inward if end == self.part.ends[0] else self.length - inward

    def add(self, where, end, made, what=None):
        start, stop = sorted((self.along(end, made.start), self.along(end, made.end)))
        radius = made.radius
        if end != self.part.ends[0]:
            radius = lambda z: made.radius(self.length - z)
        surface = Surface(start, stop, radius)
        surface.maker = (what, *self.making) if what else ("cut", *self.making)
        where.append(surface)
        self.jumps += [start, stop]

    def turned(self):
        """Corners are broken last, on the crests that are left."""
        self.broken = []
        for end, size, round_ in self.edges:
            first = end == self.part.ends[0]
            inward = (lambda y: self.crest(y + 1e-12)) if first else (lambda y: self.crest(self.length - y - 1e-12))
            reach, radius = outline.broken(inward, size, round_)
            self.broken.append((first, reach, radius))
            # A round begins square to its face: finer there.
            self.jumps += [self.along(end, reach * (nth / 8) ** 2) for nth in range(9)]

    def crest(self, z):
        """The radius outside before corners are broken."""
        over = [it.radius(z) for it in self.outer if it.covers(z)]
        for end, at, to, thread, inside in self.threads:
            low, high = sorted((self.along(end, at), self.along(end, to)))
            if not inside and low <= z <= high:
                over.append(thread.crest)
        if not over:
            raise NotRead("an outside that says nothing")
        return min(over)

    def outside_square(self, z):
        crest = self.crest(z)
        for first, reach, radius in self.broken:
            y = z if first else self.length - z
            if y < reach:
                crest = min(crest, radius(y))
        return min([crest**2] + [thread.ridges(crest) for thread in self.over(z, False)])

    def inside_square(self, z):
        hole = max((it.radius(z) for it in self.inner if it.covers(z)), default=0.0)
        return max([hole**2] + [thread.grooves(hole) for thread in self.over(z, True)])

    def over(self, z, inside):
        for end, at, to, thread, within in self.threads:
            low, high = sorted((self.along(end, at), self.along(end, to)))
            if within == inside and low <= z <= high:
                yield thread

    def volume(self):
        """Volume in mm3 and centroid in mm from the first end."""
        def square(z):
            outer, inner = self.outside_square(z), self.inside_square(z)
            taken = self.side.taken(z, math.sqrt(outer), math.sqrt(max(inner, 0.0)))
            return outer - inner - taken / math.pi

        inside = [z for z in self.jumps if 0.0 < z < self.length]
        # Halving goes on for ever where holes begin, square to the axis; this is finer than is compared.
        within = 1e-9 if self.side.jumps else 1e-11
        return volume(square, [0.0, self.length, *inside], within)
