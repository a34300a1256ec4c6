"""Parts made up at random, in the language: threads with chamfers and rounds on their ends,
countersinks, wider mouths, tapers and curved or tapering outsides under them; and pens of other
sizes than they are written with."""

import re

# Designation, major diameter, pitch.
THREADS = [
    ("M7.4x0.5", 7.4, 0.5),
    ("M9x0.75-LH", 9.0, 0.75),
    ("M10x1", 10.0, 1.0),
    ("M10x0.75", 10.0, 0.75),
    ("M12x0.8 starts 3", 12.0, 0.8),
    ("M13x0.8 starts 2", 13.0, 0.8),
    ("3/8-24UNF", 9.525, 25.4 / 24),
    ("7/16-28UNEF starts 2", 11.1125, 25.4 / 28),
]


def parts(chance, count):
    """The text of a file of parts."""
    return "\n".join(part(chance, nth) for nth in range(count))


def part(chance, nth):
    """One part of three stretches: an end, a middle of about 18 across, an end."""
    length = chance.randint(44, 90)
    kinds = [chance.choice([tenon, hole, hole, plain, bare]) for _ in range(2)]
    if chance.random() < 0.2:
        kinds[1] = closed
    (starts, first, cuts_a), (stops, last, cuts_b) = kinds[0](chance), kinds[1](chance)
    wide = lambda: round(chance.uniform(17.0, 19.0), 2)
    shape = lambda: chance.choice(["", " smooth"])
    lines = [f"at {z} dia {dia}{how}" for z, dia, how in first]
    if first:
        lines[-1] += f" step {wide()}"
    else:
        lines.append(f"at {starts} dia {wide()}")
    ends = length - stops
    lines.append(f"at {round((starts + ends) / 2, 1)} dia {wide()}{shoulder(chance)}")
    # Beside a straight stretch a smooth one takes its slope, and there is no corner to break.
    how = "" if "chamfer" in lines[-1] and "step" not in lines[-1] else shape()
    lines.append(f"at {ends} dia {wide()}{how}")
    if last:
        lines[-1] += f" step {last[-1][1]}"
    # From the far end inward; how a stretch is shaped is said at its end farther along.
    for (z, dia, edge), (_, _, how) in zip(last[-2::-1], last[:0:-1]):
        lines.append(f"at {length - z} dia {dia}{how}{edge if z == 0 else ''}")
    blocks = "".join(f"  from {name} {{\n{cut}  }}\n" for name, cut in zip("ab", (cuts_a, cuts_b)) if cut)
    return (
        f"part thing-{nth} from a to b {{\n  blank of brass rod 30\n  length {length}\n"
        f"  outside {{\n{text(lines)}  }}\n{blocks}}}\n"
    )


def shoulder(chance):
    """How the middle is come to: with a step whose corner is broken, with a broken corner (a smooth
    surface has none without a step), or neither."""
    step, size = round(chance.uniform(13.0, 16.0), 2), round(chance.uniform(0.1, 0.6), 2)
    stepped = f" step {step} {chance.choice(['chamfer', 'round'])} {size}"
    return chance.choice([stepped, " smooth" + stepped, f" chamfer {size}", " smooth", ""])


# Each end: how far its own outside goes, the stations of that (place, diameter, how the surface comes
# there from the one nearer the face), and its cuts.


def tenon(chance):
    """A threaded tenon, relieved or not, its end broken, drilled or not."""
    name, major, pitch = chance.choice(THREADS)
    dia = round(major - chance.uniform(0.0, 0.5) * pitch, 3)
    start = chance.choice([0, 0, 1.5])
    lines = [f"tenon {dia} for 9", f"thread {name} outside for {6.5 - start} at {start}"]
    if start:
        # A land that enters the mate's crests.
        lines.append(f"relief {round(major - 1.083 * pitch - 0.15, 2)} for {start}")
    if chance.random() < 0.6:
        lines.append(f"relief {round(major - 1.4 * pitch, 2)} for 2.5 at 6.5")
    broken = chance.choice(["chamfer", "round", None])
    if broken:
        lines.append(f"{broken} {round(chance.uniform(0.1, 1.1), 2)}")
    if chance.random() < 0.5:
        lines.append(f"drill {round(chance.uniform(2.0, 3.6), 2)} to {chance.randint(12, 18)}")
    return 9, [], text(lines)


def hole(chance):
    """A tapped hole with a countersink, a wider mouth, a taper or none of them."""
    name, major, pitch = chance.choice(THREADS)
    drill = round(major - chance.uniform(0.7, 1.1) * pitch, 2)
    lines = [f"drill {drill} to {chance.randint(13, 16)}" + chance.choice(["", " point 135"])]
    mouth = chance.choice(["sink", "sink", "bore", "both", "taper", "none"])
    if mouth in ("sink", "both"):
        lines.append(f"countersink {round(major + chance.uniform(-0.6, 1.2), 2)} angle {chance.choice([40, 50, 60, 82, 90, 120])}")
    if mouth in ("bore", "both"):
        lines.append(f"bore {round(drill + chance.uniform(0.1, 1.3) * pitch, 2)} to {chance.choice([1, 1.8])}")
    if mouth == "taper":
        lines.append(f"taper {round(major + 0.1, 2)} to {round(drill - 0.2, 2)} for 6")
    lines.append(f"thread {name} inside to {chance.randint(6, 10)}")
    if chance.random() < 0.4:
        lines.append(f"recess {round(major + 0.6, 2)} for 1.5 at 10.5")
    if chance.random() < 0.5:
        lines.append(f"chamfer {round(chance.uniform(0.1, 0.5), 2)}")
    return 0, [], text(lines)


def plain(chance):
    """A turned end, broken."""
    return 0, [], text([f"{chance.choice(['chamfer', 'round'])} {round(chance.uniform(0.2, 1.0), 2)}"])


def bare(chance):
    """A thread on the outside itself, which curves or tapers under it."""
    name, major, pitch = chance.choice(THREADS)
    dia = lambda: round(major - chance.uniform(0.0, 1.3) * pitch, 3)
    shape = chance.choice(["", " smooth"])
    lines = [f"thread {name} outside for 7"]
    edge = f"{chance.choice(['chamfer', 'round'])} {round(chance.uniform(0.2, 0.8), 2)}"
    at_station = ""
    if chance.random() < 0.5:
        lines.append(edge)
    elif chance.random() < 0.5:
        at_station = " " + edge
    return 8, [(0, dia(), at_station), (4, dia(), shape), (8, dia(), shape)], text(lines)


def closed(chance):
    """A domed end."""
    dia = round(chance.uniform(14.0, 18.0), 2)
    return 6, [(0, 0, ""), (6, dia, " dome")], ""


def sided(chance, count):
    """The text of a file of parts with cuts from the side, and holes beside the axis."""
    return "\n".join(sided_part(chance, nth) for nth in range(count))


def sided_part(chance, nth):
    """A tube or a rod that curves or tapers, cut from its side on four stretches of it."""
    length = chance.randint(60, 90)
    dia, some = (lambda: round(chance.uniform(13.0, 16.0), 2)), (lambda low, high: round(chance.uniform(low, high), 2))
    shape = lambda: chance.choice(["", " smooth"])
    stations = [f"at 0 dia {dia()}", f"at {length // 2} dia {dia()}{shape()}", f"at {length} dia {dia()}{shape()}"]
    bore = chance.choice([f"drill {some(6, 8)} through", f"drill {some(6, 8)} to {length - 14}", f"bore {some(4, 7)} to 12"])
    around = lambda most: f" indexed {chance.randint(1, most)} clock {some(0, 359)}"
    flats = [
        lambda: f"flat across {some(10.5, 12.9)} at {{}}" + around(12),
        lambda: f"flat across {some(11, 12.9)} to {some(11, 12.9)} at {{}}" + around(9),
        lambda: f"flat deep {some(0.2, 0.9)} at {{}}" + around(9),
        lambda: f"flat sharp at {{}} indexed {chance.randint(3, 16)}",
        lambda: f'pattern "knurl" deep {some(0.1, 0.5)} share {some(0, 1)} at {{}}',
    ]
    depth = lambda: chance.choice(["", f" to {some(0.5, 2)}", " through"])
    slots = f"slot {some(0.8, 3)}{depth()} at {{}}" + around(4)
    holes = f"drill {some(0.6, 3)}{depth()} at {some(33, 37)}" + around(4)
    side = [
        chance.choice(flats)().format(f"{some(1, 4)}..{some(8, 14)}"),
        slots.format(f"{chance.choice(['17', '18.5'])}..{some(20, 28)}"),
        holes,
        chance.choice(flats)().format(f"{some(42, 45)}..{some(1, 8)} from b"),
    ]
    if chance.random() < 0.4:
        side[0] = f"slot {some(0.6, 1.5)} at 0..{some(4, 12)} indexed {chance.randint(2, 6)}"
    tool = chance.choice(["drill", "bore"])
    # Clear of the bore and of what is cut from the side.
    circle = f"{tool} {some(0.5, 0.9)} to {some(0.3, 0.6)} on {some(9.2, 9.6)} indexed {chance.randint(1, 6)}"
    return (
        f"part side-{nth} from a to b {{\n  blank of brass rod 30\n  length {length}\n"
        f"  outside {{\n{text(stations)}  }}\n  side {{\n{text(side)}  }}\n"
        f"  from a {{\n    {bore}\n  }}\n  from b {{\n    {circle}\n  }}\n}}\n"
    )


def text(lines):
    return "".join(f"    {line}\n" for line in lines)


def other_sizes(chance, written):
    """A design with other depths, lengths and places, so little that it mostly still goes together;
    each size of two decimals of its own."""
    by = lambda most: lambda found: f"{found[1]}{float(found[2]) + round(chance.uniform(-most, most), 2):.2f}"
    changed = []
    for line in written.splitlines():
        for start, most in SIZES:
            new = re.sub(start + r"([\d.]+)", by(most), line, count=1)
            if new != line:
                line = new
                break
        changed.append(line)
    return "\n".join(changed) + "\n"


# How a line begins whose first size is changed, and by how much at most.
SIZES = [
    (r"^(    (?:drill|bore) .* to +)(?=\d\d)", 0.4),
    (r"^(    thread .* inside +to +)", 0.3),
    (r"^(    thread .* outside +for +)", 0.2),
    (r"^(    countersink +)", 0.1),
    (r"^(    chamfer +)", 0.1),
    (r"^(  length +)(?=\d\d)(?!.*\.\.)", 0.4),
]
