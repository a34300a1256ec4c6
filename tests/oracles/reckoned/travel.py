"""How far a joint's thread comes out before it lets go: as long as some crest of what goes in still
stands out further than one that it has to come past."""

from .profile import monotone
from .throats import laid, matched

HAIR = 1e-9


def travel(rest):
    """Of the threads engaged furthest, mm; none where no threads match or their crests pass
    everywhere."""
    places = {**rest.females, **rest.males}
    found = []
    for mine, theirs in matched(rest, places) if rest.mated[0] else []:
        male = crests(rest, rest.joint.male[0], mine, False)
        female = crests(rest, rest.joint.female[0], theirs, True)
        found.append((min(mine[1], theirs[1]) - max(mine[0], theirs[0]), lets_go(male, female)))
    return max(found, key=lambda it: it[0])[1] if found else None


def crests(rest, name, reach, inside):
    """A part's crests over the reach of a thread on the joint's axis: (from, to, radius), each only
    growing or only falling."""
    place = {**rest.females, **rest.males}[name]
    pieces = []
    for low, high, radius, _ in laid(rest.assembled, name, place, (), inside):
        low, high = max(low, reach[0]), min(high, reach[1])
        if high - low > HAIR:
            pieces += [(a, b, radius) for a, b in monotone(low + HAIR, high - HAIR, radius)]
    return pieces


def lets_go(male, female):
    """The greatest distance from a crest of the male, inward, back to one of the female that it
    overlaps."""
    furthest = lambda r: max((place(it, r, True) for it in male if most(it) >= r), default=None)
    first = lambda r: min((place(it, r, False) for it in female if least(it) <= r), default=None)

    def apart(r):
        a, b = furthest(r), first(r)
        return None if a is None or b is None else a - b

    ends = sorted({radius(z) + by for a, b, radius in male + female for z in (a, b) for by in (-HAIR, HAIR)})
    at = [low + (high - low) * nth / 16 for low, high in zip(ends, ends[1:]) for nth in range(17)]
    return max((it for it in map(apart, at) if it is not None), default=None)


def most(piece):
    return max(piece[2](piece[0]), piece[2](piece[1]))


def least(piece):
    return min(piece[2](piece[0]), piece[2](piece[1]))


def place(piece, r, last):
    """The last place of a piece that stands out to a radius, or the first that comes in to it."""
    low, high, radius = piece
    holds = (lambda z: radius(z) >= r) if last else (lambda z: radius(z) <= r)
    end, other = (high, low) if last else (low, high)
    if holds(end):
        return end
    for _ in range(60):
        middle = (end + other) / 2
        if holds(middle):
            other = middle
        else:
            end = middle
    return other
