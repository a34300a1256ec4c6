"""What is left free in a pen: ink in the bores that it reaches, air that a cap shuts in."""

from .chains import foremost
from .profile import envelope
from .quadrature import volume

SAME = 1e-6


class Bore:
    """The bore of a part as it is come to from one of its ends: as far as there is no web of solid,
    and between what closes it."""

    def __init__(self, assembled, name, from_first):
        self.solid = assembled.solid(name)
        low, high = closed(assembled, name)
        length = self.solid.length
        stretches = envelope(self.solid.inner, length, max, None)
        step = 1 if from_first else -1
        reach = []
        for a, b, _, maker in stretches[::step]:
            a, b = max(a, low), min(b, length - high)
            if b - a < SAME:
                continue
            if maker is None:
                break
            reach.append((a, b))
        self.low = min((a for a, _ in reach), default=0.0)
        self.high = max((b for _, b in reach), default=0.0)

    def opens(self, first):
        """Whether it comes out at that end of its part."""
        return self.low < SAME if first else self.high > self.solid.length - SAME


def closed(assembled, name):
    """How far in from each end of a part what goes in there closes its bore, while the pen is open."""
    first = assembled.pen.parts[name].ends[0]
    low = high = 0.0
    for it in assembled.order:
        if it.female[0] != name:
            continue
        if it.female[1] == first:
            low = max(low, assembled.rests[it].goes_in)
        else:
            high = max(high, assembled.rests[it].goes_in)
    return low, high


def ink(assembled):
    """Millilitres of ink by the parts it stands in; none where the pen says nothing."""
    pen = assembled.pen
    group = assembled.open[writes(assembled)]
    if pen.fill is None:
        for name in group:
            says = pen.says(name, "holds")
            if says:
                return {name: float(says[1])}
        return None
    # A barrel is filled from the end that looks to the writing point.
    rooms = {pen.fill: Bore(assembled, pen.fill, group[pen.fill].way == forward(assembled, group))}
    waiting = list(rooms)
    while waiting:
        room = waiting.pop()
        for name in group:
            if name in rooms:
                continue
            for first in (True, False):
                bore = Bore(assembled, name, first)
                face = group[name].of(0.0 if first else bore.solid.length)
                here = group[room].station(face)
                into = rooms[room].low - SAME <= here <= rooms[room].high + SAME
                if bore.high > bore.low and bore.opens(first) and into:
                    rooms[name] = bore
                    waiting.append(name)
                    break
    return {name: free(assembled, group, name, bore) / 1000 for name, bore in rooms.items()}


def writes(assembled):
    close = next(it for it in assembled.pen.joints if it.verb == "close")
    return close.male[0]


def forward(assembled, group):
    """1 where the group's axis runs from the writing point to the tail."""
    body, end = next(it for it in assembled.pen.joints if it.verb == "close").male
    return group[body].way if end == assembled.pen.parts[body].ends[0] else -group[body].way


def free(assembled, group, own, bore):
    """The room in a bore less what stands in it, mm3."""
    places, others = [bore.low, bore.high], []
    for name, place in group.items():
        solid = assembled.solid(name)
        to_own = place.then(group[own].inverse())
        if name != own and within(solid, to_own, bore):
            others.append((solid, to_own))
            places += [to_own.of(z) for z in (0.0, solid.length, *solid.jumps)]

    def square(z):
        taken = [solid.outside_square(at.station(z)) for solid, at in others if 0.0 <= at.station(z) <= solid.length]
        return bore.solid.inside_square(z) - max(taken, default=0.0)

    places = [z for z in [*places, *bore.solid.jumps] if bore.low <= z <= bore.high]
    return volume(square, places)[0]


def within(solid, place, bore):
    """Whether a part lies in a bore, not round it."""
    ends = sorted((place.of(0.0), place.of(solid.length)))
    low, high = max(ends[0], bore.low), min(ends[1], bore.high)
    if high - low < SAME:
        return False
    middle = (low + high) / 2
    return solid.outside_square(place.station(middle)) <= bore.solid.inside_square(middle) + SAME


def air(assembled):
    """The room in the cap beyond what seals it, less all that stands in it, mm3; none where nothing
    seals it."""
    rest = next(rest for it, rest in assembled.rests.items() if it.verb == "close")
    nib = foremost(assembled)
    _, (male, female, nth, _, maker) = rest.stop
    if nib in (male, female) or rest.by_hand:
        return None
    place = rest.females[female]
    # The seal is a ring of contact on the female.
    found = rest.shapes(male, female)[nth][1][maker]
    start = max(0.0, min(place.of(z) for it in found for z in (it.low, it.high)))
    places, bores = [start], []
    for name, at in rest.females.items():
        solid = assembled.solid(name)
        places += [at.of(z) for z in (0.0, solid.length, *solid.jumps)]
        bores += [(a, b) for a, b in solids(solid, at)]
    end = min((a for a, b in bores if b > start + SAME and b - a > SAME), default=max(places))
    for name, at in rest.males.items():
        solid = assembled.solid(name)
        places += [at.of(z) for z in (0.0, solid.length, *solid.jumps)]

    def square(z):
        lies = lambda at, name: 0.0 <= at.station(z) <= assembled.solid(name).length
        room = min(assembled.solid(name).inside_square(at.station(z)) for name, at in rest.females.items() if lies(at, name))
        taken = [assembled.solid(name).outside_square(at.station(z)) for name, at in rest.males.items() if lies(at, name)]
        return room - max(taken, default=0.0)

    places = [z for z in [*places, end] if start <= z <= end]
    return volume(square, places)[0]


def solids(solid, place):
    """The stretches of a part without a hole, on another axis."""
    for a, b, _, maker in envelope(solid.inner, solid.length, max, None):
        if maker is None:
            low, high = sorted((place.of(a), place.of(b)))
            yield low, high
