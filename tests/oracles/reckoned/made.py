"""One that was made, as a drawing of its own: the drawn text with what was measured written in its place.

A statement stands for the drawn one of its word and end that is nearest in depth; what ends in the same plane
goes with it. Only what the shipped made files say is read: `length`, `outside`, `side` and `from`, a line each.
"""

import re

from .language import NotRead

CUTS_INSIDE = ("bore", "drill", "ream", "recess", "thread")
SAME = 1e-6


def as_drawn(drawn, made):
    """The drawn text, its parts as the made text says they came out."""
    for name, lines in blocks(made, r"\s*part (\S+) \{"):
        drawn = part_as_made(drawn, name, lines)
    return drawn


def blocks(text, head):
    """Each block whose first line is as `head`, by the name in it, with the lines in it."""
    lines, found = [it.split("--")[0].rstrip() for it in text.splitlines()], []
    for at, line in enumerate(lines):
        begun = re.match(head, line)
        if begun:
            depth, inner = 1, []
            for more in lines[at + 1 :]:
                depth += more.count("{") - more.count("}")
                if depth == 0:
                    break
                inner.append(more)
            found.append((begun[1], inner))
    return found


def number(line, word):
    found = re.search(rf"\b{word} (\d+(?:\.\d+)?)", line)
    return float(found[1]) if found else None


def ends(line):
    """Where a cut begins and ends, from its face; none where it goes through."""
    at, to, reach = number(line, "at") or 0.0, number(line, "to"), number(line, "for")
    return None if to is None and reach is None else (at, to if to is not None else at + reach)


def part_as_made(text, name, made):
    begun = re.search(rf"^part {name} from (\S+) to (\S+) \{{$", text, re.M)
    if not begun:
        raise NotRead(f"no part {name}")
    stop = text.index("\n}", begun.end())
    first, second = begun[1], begun[2]
    lines = text[begun.end() : stop].split("\n")
    body = {"length": None, "dia": None, "outside": [], "side": [], first: [], second: []}
    where = None
    for line in made:
        where = entered(line, where)
        if re.match(r"\s*length ", line):
            body["length"] = number(line, "length")
        elif re.match(r"\s*outside dia ", line):
            body["dia"] = line.strip()
        elif where in body and re.match(r"\s*\w+ ", line) and "{" not in line:
            body[where].append(line.strip())
    was = next(number(it, "length") for it in lines if re.match(r"\s*length ", it))
    length = body["length"] or was
    lines, planes = with_cuts(lines, body, (first, second), (was, length))
    lines = with_stations(lines, body["outside"], planes, (second, was, length))
    lines = with_sides(lines, body["side"])
    lines = [f"  {body['dia']}" if re.match(r"\s*outside dia ", it) and body["dia"] else it for it in lines]
    return text[: begun.end()] + "\n".join(lines) + text[stop:]


def entered(line, where):
    """The block that a line stands in, or begins."""
    begun = re.match(r"\s*(?:from (\S+)|(outside|side)) \{", line)
    if begun:
        return begun[1] or begun[2]
    return None if re.match(r"\s*\}", line) else where


def with_cuts(lines, body, names, lengths):
    """The lines with what was measured of cuts, and the planes of the outside that went elsewhere."""
    (first, second), (was, length) = names, lengths
    cuts, where = [], None
    for at, line in enumerate(lines):
        where = entered(line, where)
        if where in names and "{" not in line and ends(line.split("--")[0]):
            cuts.append((at, where, line.split("--")[0].rstrip()))
    moved, done = {}, set()
    for end in names:
        for said in body[end]:
            if said.endswith("through"):
                at = next(at for at, it in enumerate(lines) if re.match(rf"\s*{said.split()[0]} .* through", it))
                lines[at] = f"    {said}"
                continue
            verb, deep = said.split()[0], ends(said)[1]
            alike = [it for it in cuts if it[1] == end and it[2].split()[0] == verb and it[0] not in done]
            at, _, drawn = min(alike, key=lambda it: abs(ends(it[2])[1] - deep))
            done.add(at)
            moved[end, verb in CUTS_INSIDE, round(ends(drawn)[1], 6)] = deep
            lines[at] = f"    {said}"
    planes = {}
    for at, end, drawn in cuts:
        inside = drawn.split()[0] in CUTS_INSIDE and " outside" not in drawn
        (begins, stops) = ends(drawn)
        to = {it: moved.get((end, inside, round(it, 6)), it) for it in (begins, stops)}
        if at not in done and (to[begins], to[stops]) != (begins, stops):
            lines[at] = moved_to(drawn, to[begins] if begins else 0.0, to[stops])
        if not inside:
            for it in (begins, stops):
                station = it if end == first else was - it
                planes[round(station, 6)] = to[it] if end == first else length - to[it]
    if body["length"]:
        at = next(at for at, it in enumerate(lines) if re.match(r"\s*length ", it))
        lines[at] = re.sub(r"length [\d.]+", f"length {length}", lines[at])
    return lines, planes


def moved_to(line, begins, stops):
    """A cut's line with its two ends elsewhere."""
    line = re.sub(r" to [\d.]+", f" to {stops:.6f}", line)
    line = re.sub(r" for [\d.]+", f" for {stops - begins:.6f}", line)
    return re.sub(r" at [\d.]+", f" at {begins:.6f}", line)


def with_stations(lines, made, planes, far):
    """The lines with what was measured of stations; those in a plane that moved go with it."""
    second, was, length = far
    where, out = None, []
    for line in lines:
        where = entered(line, where)
        place = re.match(rf"(\s*at )(\S+)( from {second})?( .*)", line)
        if where != "outside" or not place or not re.match(r"[\d.]+$", place[2]):
            out.append(line)
            continue
        station = was - float(place[2]) if place[3] else float(place[2])
        same = [it for it in made if (f"from {second}" in it) == bool(place[3])]
        dia = [it for it in same if abs(number(it, "at") - float(place[2])) <= 0.5]
        now = planes.get(round(station, 6))
        at = place[2] if now is None else f"{length - now if place[3] else now:.6f}"
        rest = re.sub(r"dia [\d.]+", f"dia {number(dia[0], 'dia')}", place[4]) if dia else place[4]
        out.append(f"{place[1]}{at}{place[3] or ''}{rest}")
    return out


def with_sides(lines, made):
    """The lines with what was measured of cuts from the side; how often and where round is as drawn."""
    where, sides = None, []
    for at, line in enumerate(lines):
        where = entered(line, where)
        if where == "side" and "{" not in line and re.match(r"\s*(flat|slot|drill|pattern) ", line):
            sides.append((at, line.split("--")[0].strip()))
    for said in made:
        kind = re.match(r"flat \w+|\w+", said)[0]
        alike = [it for it in sides if it[1].startswith(kind)]
        at, drawn = min(alike, key=lambda it: abs(number(it[1], "at") - number(said, "at")))
        sides.remove((at, drawn))
        kept = [it for it in re.findall(r"(?:indexed|clock|share|takes) \S+", drawn) if it.split()[0] not in said]
        lines[at] = "    " + " ".join([said, *kept])
    return lines
