"""What passes what: the narrowest that a part goes by on its way into another, on the radius."""

from .profile import Placed, envelopes

# Wider or tighter than this, mm, nothing passes anything.
WIDE, PRESSED = 3.0, 0.5
# Places as tight as this are one throat.
SAME = 1e-9
SAMPLES = 48
# No chain takes so much along the axis, mm.
REACH = 3.0


def throats(rest, male, female):
    """The places of a male and a female that are tightest, as drawn: (gap, pair) each; a pair says
    between what, and gives the gap of the same two of another assembly."""
    own = (male, female) == (rest.joint.male[0], rest.joint.female[0])
    if own:
        found = tightest(rest, male, female, False, True)
    else:
        found = tightest(rest, male, female, False, False)
        if not found or found[0][0] < 0.0:
            # What only goes along may lie the other way round.
            back = tightest(rest, female, male, True, False)
            found = max((it for it in (found, back) if it), key=lambda it: it[0][0], default=[])
    return [it for it in found if -PRESSED <= it[0] <= WIDE]


def tightest(rest, male, female, back, own):
    gaps = all_gaps(rest, male, female, back, own)
    least = min((it[0] for it in gaps), default=None)
    return [it for it in gaps if it[0] <= least + SAME]


def again(rest, pair):
    """The gap of two surfaces known by their makers."""
    male, female, back, own, nth, one, other = pair
    gaps = all_gaps(rest, male, female, back, own, (nth, one, other))
    return min(it[0] for it in gaps)


def nearly(rest, male, female):
    """What is narrower than the tightest as drawn and lies less than REACH further in than the male
    comes: (gap, pair) each; a pair as of `throats`, with which end of the two it is measured at."""
    drawn = throats(rest, male, female)
    if not drawn:
        return []
    tightest_mm, (male, female, back, own, *_) = drawn[0]
    found = []
    for at in (0, 1):
        for (one, other), (gap, short) in beyond(rest, (male, female, back, own), at).items():
            if SAME < gap < tightest_mm and -SAME <= short < REACH:
                found.append((gap, (male, female, back, own, at, one, other)))
    return found


def nearly_again(rest, pair):
    """The gap and how far the male is short of it, of the same two of another assembly."""
    *which, at, one, other = pair
    return beyond(rest, which, at)[one, other]


def beyond(rest, which, at):
    """Of surfaces of which the male's ends before the female's begins: the gap there, and how far
    the one is short of the other; `at` 0: where the female's begins, else where the male's ends."""
    male, female, back, own = which
    places = {**rest.females, **rest.males}
    turn = (lambda it: Placed(-it.offset, -it.way)) if back else (lambda it: it)
    outer, inner = {}, {}
    for low, high, radius, maker in laid(rest.assembled, male, turn(places[male]), (), False):
        if maker not in outer or high > outer[maker][1]:
            outer[maker] = low, high, radius
    for low, high, radius, maker in laid(rest.assembled, female, turn(places[female]), (), True):
        if maker not in inner or low < inner[maker][0]:
            inner[maker] = low, high, radius
    reaches = matched(rest, places) if own else []
    found = {}
    for one, (from_, end, stands) in outer.items():
        for other, (start, high, radius) in inner.items():
            if start - end > REACH + 1.0 or end - start > 1.0:
                continue
            if any(within(from_, end, a) and within(start, high, b) for a, b in reaches):
                continue
            place = end if at else start
            # What falls off towards its end is met further back, what narrows inward further in.
            over = place if stands(end) < stands(from_) else end
            under = place if radius(high) < radius(start) else start
            found[one, other] = radius(under) - stands(over), start - end
    return found


def all_gaps(rest, male, female, back, own, only=None):
    """The least gap of each pair of surfaces: (gap, pair)."""
    places = {**rest.females, **rest.males}
    turn = (lambda it: Placed(-it.offset, -it.way)) if back else (lambda it: it)
    found = {}
    reaches = matched(rest, places) if own else []
    for nth, (mine, theirs) in enumerate(bare(rest) if own else [((), ())]):
        outer = list(laid(rest.assembled, male, turn(places[male]), mine, False))
        inner = laid(rest.assembled, female, turn(places[female]), theirs, True)
        for low, high, radius, maker in inner:
            # What goes in comes to rest on a drill's point, and passes the hole before it.
            if own and maker[0] == "point":
                continue
            for from_, to, stands, made in outer:
                key = nth, made, maker
                if only not in (None, key) or to <= low + SAME:
                    continue
                if any(within(from_, to, a) and within(low, high, b) for a, b in reaches):
                    continue
                gap = least(low, min(high, to), radius, from_, to, stands)
                if key not in found or gap < found[key]:
                    found[key] = gap
    return [(gap, (male, female, back, own, *key)) for key, gap in found.items()]


def bare(rest):
    """Of threads that match, each cut away once."""
    mine, theirs = rest.mated
    return [(mine, ()), ((), theirs)] if mine else [((), ())]


def matched(rest, places):
    """From where to where the threads lie that match: a thread has its own play in the other."""
    def reach(name, maker):
        solid, place = rest.assembled.solid(name), places[name]
        end, at, to = next(it[:3] for it in solid.threads if it[3].maker == maker)
        return sorted(place.of(solid.along(end, it)) for it in (at, to))

    male, female = rest.joint.male[0], rest.joint.female[0]
    pairs = [
        (one[3].maker, other[3].maker)
        for one in rest.assembled.solid(male).threads for other in rest.assembled.solid(female).threads
        if one[3].maker in rest.mated[0] and other[3].maker in rest.mated[1] and one[3].same(other[3])
    ]
    return [(reach(male, a), reach(female, b)) for a, b in pairs]


def within(low, high, reach):
    return low >= reach[0] - 1e-6 and high <= reach[1] + 1e-6


def laid(assembled, name, place, cored, inside):
    """The stretches of a part's outside or inside on a joint's axis."""
    found = envelopes(assembled.solid(name), cored)[1 if inside else 0]
    for low, high, radius, maker in found:
        if maker is None:
            continue
        ends = sorted((place.of(low), place.of(high)))
        yield *ends, (lambda z, radius=radius, place=place: radius(place.station(z))), maker


def least(low, high, radius, from_, to, stands):
    """The least of a hole's radius less the greatest that lies as deep or deeper."""
    grid = [from_ + (to - from_) * nth / SAMPLES for nth in range(SAMPLES + 1)]
    heights = [stands(z) for z in grid]

    def fattest(z):
        at = max(z, from_)
        return max([stands(at)] + [height for place, height in zip(grid, heights) if place >= at])

    gap = lambda z: radius(z) - fattest(z)
    at = [low + (high - low) * nth / SAMPLES for nth in range(SAMPLES + 1)]
    at += [from_] if low < from_ < high else []
    return min(gap(z) for z in at)
