"""Worst cases of the clearances along the axis and across it: each size of each part is let come
out a little otherwise, the pen is put together anew, and what the clearance loses by it is summed,
every size at its worst."""

from .hand import Hand
from .pens import TOUCHING, Assembled
from .throats import again, nearly, nearly_again, throats

STEP = 1e-4
FAR = 15.0


class Chains:
    """Of one pen: for each joint, kind, male and female part the clearance as drawn and at worst."""

    def __init__(self, pen):
        self.pen, self.hand = pen, Hand(pen.bench, pen.file)
        self.drawn = Assembled(pen)
        self.nib = foremost(self.drawn)
        self.found = []
        for it, rest in self.drawn.rests.items():
            springs = {name for name in rest.stacked if ".." in pen.says(name, "length")[1]}
            for male in rest.males:
                for female in rest.females:
                    if female not in springs:
                        self.ahead(it, rest, male, female)
                        self.passing(it, rest, male, female)
            self.corners(it, rest)
        self.slopes()
        self.nearly_passed()

    def ahead(self, it, rest, male, female):
        """What two parts would touch, beyond what touches already: any of it may come first at worst."""
        met = rest.meetings({male: rest.males[male]}, {female: rest.females[female]})
        for travel, pair, _ in met:
            if TOUCHING < travel < FAR:
                again = lambda other, at=(travel, pair): other.again(other.males, other.females, at)
                self.found.append(Clearance("ahead", it, male, female, travel, again))

    def passing(self, it, rest, male, female):
        """The tightest that one passes; of places as tight, each is let move."""
        for gap, pair in throats(rest, male, female):
            self.found.append(Clearance("throat", it, *pair[:2], gap, lambda other, pair=pair: again(other, pair)))
        for gap, pair in nearly(rest, male, female):
            of = lambda nth, pair=pair: lambda other: nearly_again(other, pair)[nth]
            made = Clearance("throat", it, *pair[:2], gap, of(0))
            made.short = Clearance("short", it, *pair[:2], of(1)(rest), of(1))
            self.found += [made, made.short]

    def nearly_passed(self):
        """Of what is come to only at worst, that which then leaves less than all that is passed as
        drawn."""
        near = [it for it in self.found if it.short]
        self.found = [it for it in self.found if not it.short and it.kind != "short"]
        for key in {it.key() for it in near}:
            least = min((it.worst for it in self.found if it.key() == key), default=float("inf"))
            reached = [it for it in near if it.key() == key and it.short.worst < 0.0 and it.worst < least - 1e-6]
            self.found += sorted(reached, key=lambda it: it.worst)[:1]

    def corners(self, it, rest):
        """From the foremost of what goes in to where a blind hole stops being full diameter."""
        tips = {name: tip(self.drawn, name, place) for name, place in rest.males.items()}
        male = max(tips, key=lambda name: tips[name])
        for female, place in rest.females.items():
            maker = self.point(female, place)
            if maker is None:
                continue

            def apart(other, male=male, female=female, maker=maker):
                at = tip(other.assembled, male, other.males[male])
                return full(other.assembled, female, other.females[female], maker) - at

            drawn = apart(rest)
            if -FAR <= drawn < FAR:
                self.found.append(Clearance("corner", it, male, female, drawn, apart))

    def point(self, name, place):
        """The point of a drilled hole that is closed, and whole."""
        for maker, found in self.drawn.shape(name).items():
            whole = min(it.least for it in found) < 1e-6
            faces = not any(it.up == (place.way > 0) for it in found)
            if maker[0] != "point" or not (whole and faces) or full(self.drawn, name, place, maker) <= 0.0:
                continue
            widest = self.drawn.solid(name).sizes["dia", maker[1:]][0] / 2
            if max(it.most for it in found) > widest - 1e-6:
                return maker
        return None

    def slopes(self):
        """Lets each size come out a little more and a little less."""
        for it in self.found:
            it.worst = it.drawn
        for name in self.pen.parts:
            takes = {}
            for key, (low, high) in self.hand.ranges(self.drawn.solid(name)).items():
                more, less = (Assembled(self.pen, {name: {key: by}}, self.drawn) for by in (STEP, -STEP))
                for it in self.found:
                    slope = (it.at(more) - it.at(less)) / (2 * STEP)
                    if abs(slope) > 1e-7:
                        takes[it] = takes.get(it, 0.0) + max(-slope * low, -slope * high, 0.0)
            for it in self.found:
                # A nib that only goes along is as true as it is set.
                set_ = name == self.nib and name in (it.male, it.female)
                own = name in (it.joint.male[0], it.joint.female[0])
                length = self.drawn.solid(name).length
                along = it.kind != "throat"
                it.worst -= self.hand.keeps("nib", length) if set_ and not own and along else takes.get(it, 0.0)
        for joint, rest in self.drawn.rests.items():
            if not rest.by_hand:
                continue
            bought = self.pen.bought(joint.male[0]) and self.pen.bought(joint.female[0])
            within = self.hand.caliper if bought else self.hand.keeps("length", joint.by)
            more, less = (Assembled(self.pen, {joint: by}, self.drawn) for by in (STEP, -STEP))
            for it in self.found:
                it.worst -= abs(it.at(more) - it.at(less)) / (2 * STEP) * within


class Clearance:
    def __init__(self, kind, joint, male, female, drawn, again):
        self.kind, self.joint, self.male, self.female = kind, joint, male, female
        self.drawn, self.again = drawn, again
        self.short = None

    def key(self):
        """What tells it from the others of its pen."""
        return *self.joint.ends(), self.kind, self.male, self.female

    def at(self, assembled):
        return self.again(assembled.rests[self.joint])


def tip(assembled, name, place):
    """How far in a part reaches."""
    length = assembled.solid(name).length
    return max(place.of(0.0), place.of(length))


def full(assembled, name, place, maker):
    """Where the point of a hole begins."""
    found = assembled.shape(name)[maker]
    return min(min(place.of(it.low), place.of(it.high)) for it in found)


def foremost(assembled):
    """The bought part that stands out at the writing point and is set by hand: one that holds its
    own ink is as it was measured."""
    pen = assembled.pen
    close = next((it for it in pen.joints if it.verb == "close"), None)
    if close is None:
        return None
    body, end = close.male
    group = assembled.open[body]
    first = (end == pen.parts[body].ends[0]) == (group[body].way > 0)

    def front(name):
        ends = group[name].of(0.0), group[name].of(assembled.solid(name).length)
        return min(ends) if first else -max(ends)

    name = min(group, key=front)
    return name if pen.bought(name) and pen.says(name, "holds") is None else None
