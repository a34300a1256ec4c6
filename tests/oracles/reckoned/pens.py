"""Pens: their joints, their bench, and where every part of them comes to rest."""

import itertools
from dataclasses import dataclass, replace

from .language import NotRead
from .profile import Piece, Placed, gap, makers, pieces
from .solid import Solid

VERBS = ("screw", "push", "slip", "press", "glue", "close", "post")
# Contacts within this of each other count as one, mm: what is met next lies farther.
TOUCHING = 0.05
# A size that is a little off moves nothing by more than this, mm.
NEAR = 0.02
# On diameter: by so much a heel may be fatter than the mouth it is pushed into, a plain cap
# tighter (common practice, no published source).
GIVE = {"push": 0.4, "press": 0.05, "close": 0.01}


@dataclass(frozen=True)
class Joint:
    verb: str
    male: tuple
    female: tuple
    by: float = None
    through: tuple = ()

    def ends(self):
        return ".".join(self.male), ".".join(self.female)


class Pen:
    """The joints of a pen, its own values, what it fills and its bench."""

    def __init__(self, it, file, others):
        self.name, self.file = it.words[1], file
        self.joints, self.lets, self.fill, bench = [], {}, None, None
        if "like" in it.words:
            other = others[it.words[it.words.index("like") + 1]]
            self.joints, self.lets = list(other.joints), dict(other.lets)
            self.fill, bench = other.fill, other.bench_said
        for line in it.block or []:
            word = line.words[0]
            if word in VERBS:
                self.joints.append(joint(line.words))
            elif word == "let":
                self.lets[line.words[1]] = line.words[3:]
            elif word == "fill":
                self.fill = line.words[1]
            elif word == "bench":
                bench = line.words[1]
        self.bench_said = bench
        # With several in sight and none named, none is taken.
        alone = list(file.benches.values()) if len(file.benches) == 1 else [None]
        self.bench = file.benches[bench] if bench else alone[0]
        names = [it for one in self.joints for it in (one.male[0], one.female[0], *one.through)]
        self.parts = {}
        for name in dict.fromkeys(names):
            part = file.parts[name]
            self.parts[name] = replace(part, lets={**self.lets, **part.lets})

    def bought(self, name):
        return self.parts[name].bought

    def says(self, name, word):
        """The line of a part that begins with a word."""
        return next((it.words for it in self.parts[name].lines if it.words[0] == word), None)


def pens_of(file):
    """The pens that a file itself defines."""
    found = {}
    for it in file.pens:
        found[it.words[1]] = Pen(it, file, found)
    return found.values()


def joint(words):
    """`A into B`: A goes in; `A onto B`: B does."""
    verb, first, way, second = words[:4]
    one, other = tuple(first.split(".")), tuple(second.split("."))
    rest, by, through = words[4:], None, ()
    if "by" in rest:
        by = float(rest[rest.index("by") + 1])
    if "through" in rest:
        through = tuple(it for it in rest[rest.index("through") + 1:] if it != ",")
    male, female = (one, other) if way == "into" else (other, one)
    return Joint(verb, male, female, by, through)


class Assembled:
    """A pen put together, its sizes as written or with some of them off: `off` gives, for a part, how
    much which of its sizes come out other than written; for a joint, how much its `by` does.
    `like`: another that says in which order to join, and what stops what."""

    def __init__(self, pen, off=None, like=None):
        self.pen, self.off, self.like = pen, off or {}, like
        self.solids, self.shapes, self.rests = {}, {}, {}
        lasting = [it for it in pen.joints if it.verb not in ("close", "post")]
        self.order = like.order if like else best_order(self, lasting)
        self.groups = {name: {name: Placed(0.0, 1)} for name in pen.parts}
        for it in self.order:
            self.join(it, self.groups)
        self.open = {name: dict(group) for name, group in self.groups.items()}
        for it in pen.joints:
            if it.verb in ("close", "post"):
                groups = {name: dict(group) for name, group in self.open.items()}
                self.join(it, groups)
                if it.verb == "close":
                    self.closed = groups

    def solid(self, name):
        if name not in self.solids:
            off = self.off.get(name)
            if not off and self.like:
                self.solids[name] = self.like.solid(name)
            else:
                self.solids[name] = Solid(self.pen.parts[name], off)
        return self.solids[name]

    def shape(self, name, cored=()):
        """A part's pieces by their makers."""
        key = name, tuple(cored)
        if key not in self.shapes:
            if not self.off.get(name) and self.like:
                self.shapes[key] = self.like.shape(name, cored)
            else:
                self.shapes[key] = makers(pieces(self.solid(name), cored))
        return self.shapes[key]

    def leading(self, name, end):
        """A part with an end at zero and the rest of it behind."""
        first = end == self.pen.parts[name].ends[0]
        return Placed(0.0, -1) if first else Placed(-self.solid(name).length, 1)

    def inward(self, name, end):
        first = end == self.pen.parts[name].ends[0]
        return Placed(0.0, 1) if first else Placed(self.solid(name).length, -1)

    def side(self, groups, own, at):
        """A group of parts on a joint's axis."""
        axis = groups[own][own].inverse().then(at)
        return {name: place.then(axis) for name, place in groups[own].items()}

    def join(self, it, groups):
        """Brings two groups to rest on each other and makes them one."""
        rest = Rest(self, it, groups)
        self.rests[it] = rest
        both = {**rest.females, **rest.males}
        for name in both:
            groups[name] = both
        return rest


def best_order(assembled, joints):
    """The order in which every joint goes in as far as it does with its two parts alone: that of the
    text, where it does."""
    apart = lambda: {name: {name: Placed(0.0, 1)} for name in assembled.pen.parts}
    alone = {it: Rest(assembled, it, apart()).goes_in for it in joints}
    best = None
    for order in itertools.permutations(joints):
        groups, short = apart(), 0.0
        for it in order:
            short += max(0.0, alone[it] - assembled.join(it, groups).goes_in)
        if best is None or short < best[0] - 1e-6:
            best = short, order
        if short < 1e-6:
            break
    return best[1]


class Rest:
    """A joint at rest, the female's face at zero, inward positive."""

    def __init__(self, assembled, it, groups):
        self.assembled, self.joint = assembled, it
        (male, male_end), (female, female_end) = it.male, it.female
        self.males = assembled.side(groups, male, assembled.leading(male, male_end))
        self.females = assembled.side(groups, female, assembled.inward(female, female_end))
        self.mated = self.threads()
        known = assembled.like.rests.get(it) if assembled.like else None
        self.stacked = {}
        for name in it.through:
            if name in self.males or name in self.females:
                continue
            place = assembled.leading(name, assembled.pen.parts[name].ends[0])
            first = self.first({name: place}, self.females, known and known.stacked[name])
            self.stacked[name] = first
            self.females[name] = place.moved(first[0])
        self.stop = self.first(self.males, self.females, known and known.stop)
        contact = self.stop[0] if self.stop else None
        by = None if it.by is None else it.by + assembled.off.get(it, 0.0)
        # The same thing stops it as does as drawn.
        if it.verb == "post":
            self.by_hand, self.goes_in = bool(it.by), contact + (by or 0.0)
        elif by is not None and (known.by_hand if known else contact is None or by < contact - TOUCHING):
            self.by_hand, self.goes_in = True, by
        elif contact is not None:
            self.by_hand, self.goes_in = False, contact
        else:
            raise NotRead(f"{it.male} does not come to rest")
        self.males = {name: place.moved(self.goes_in) for name, place in self.males.items()}

    def threads(self):
        """The makers of the threads that mate, of the male and of the female."""
        if self.joint.verb not in ("screw", "close"):
            return (), ()
        solid = self.assembled.solid
        male, female = solid(self.joint.male[0]), solid(self.joint.female[0])
        pairs = [
            (one[3].maker, other[3].maker)
            for one in male.threads for other in female.threads
            if not one[4] and other[4] and one[3].same(other[3])
        ]
        return tuple(dict.fromkeys(a for a, _ in pairs)), tuple(dict.fromkeys(b for _, b in pairs))

    def first(self, males, females, known):
        """What is met first: (travel, pair); the same pair again where it is known."""
        if known is not None:
            return self.again(males, females, known), known[1]
        found = list(self.meetings(males, females))
        return min(found, key=lambda it: (round(it[0], 9), -it[2]))[:2] if found else None

    def meetings(self, males, females):
        """The travel until each surface of a male meets each of a female: (travel, pair, width)."""
        for male, at in males.items():
            for female, other_at in females.items():
                least = {}
                for nth, (one, other) in enumerate(self.shapes(male, female)):
                    for a, surface in one.items():
                        for b, opposite in other.items():
                            met = gap(surface, at, opposite, other_at)
                            if met is None:
                                continue
                            known = least.get((a, b))
                            if known is None or met.travel < known[0]:
                                least[a, b] = met.travel, (male, female, nth, a, b), met.width
                yield from least.values()

    def again(self, males, females, known):
        """The travel of a pair met before. Where two cuts came to the same place and one of them
        does no more, it is the surface that is left there."""
        drawn, (male, female, nth, a, b) = known
        one, other = self.shapes(male, female)[nth]
        if a in one and b in other:
            met = gap(one[a], males[male], other[b], females[female])
            if met is not None and abs(met.travel - drawn) < NEAR:
                return met.travel
        found = self.meetings({male: males[male]}, {female: females[female]})
        return min((it[0] for it in found), key=lambda travel: abs(travel - drawn))

    def shapes(self, male, female):
        """The shapes that count against each other. A thread passes the thread that matches it and
        nothing else does: so each without its threads counts against the other with them."""
        shape = self.assembled.shape
        if (male, female) != (self.joint.male[0], self.joint.female[0]):
            return [(shape(male), shape(female))]
        (mine, theirs), give = self.mated, 0.0
        if not mine:
            give = GIVE.get(self.joint.verb, 0.0) / 2
        plain = shrunk(shape(male), give) if give else shape(male)
        if not mine:
            return [(plain, shape(female))]
        return [(shape(male, mine), shape(female)), (plain, shape(female, theirs))]


def shrunk(shape, by):
    """A shape with its radii less."""
    def less(it):
        radius = tuple(r - by for r in it.radius) if it.flat else lambda z: it.radius(z) - by
        return Piece(it.maker, it.low, it.high, radius, it.up, it.inside)

    return {maker: [less(it) for it in found] for maker, found in shape.items()}
