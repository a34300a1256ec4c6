"""Reads the sheet back with programs written by others; `export.py` runs it.

  poppler         pages; every word within its page, no two on each other; letters as tall as they must be
  pixels          the check line of 40 mm and the 1:1 card of a part as wide as they say
  Chromium        the HTML printed: as many pages of the same size, the same lengths in it
  greyscale       what is cut away and what is left differ by a fifth
"""

import json
import re
import shutil
import subprocess

# DejaVu Sans Condensed: from ascent to descent 928 + 236 thousandths, an x 1120 of 2048.
TALL, X_HEIGHT = 1.164, 1120 / 2048
LEAST_X_MM = 1.75
# What may be smaller: heads of columns, and the foot.
HEADS = "rev/min as made length ⌀ long mm filled g dry balances at of its drawn worst".split()
CHROMIUM = "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-sync \
            --disable-background-networking --disable-component-update --no-pdf-header-footer"
WORD = re.compile(r'<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)</word>')


def pages_of(pdf):
    """Of each page its width and height, mm, and its words with their boxes."""
    text = subprocess.run(["pdftotext", "-bbox", pdf, "-"], capture_output=True, text=True).stdout
    for page in text.split("<page ")[1:]:
        width, height = (float(it) * 25.4 / 72 for it in re.findall(r'"(.*?)"', page)[:2])
        words = [([float(at) * 25.4 / 72 for at in it[:4]], it[4]) for it in WORD.findall(page)]
        yield width, height, words


def on_paper(check, pdf, count):
    pages = list(pages_of(pdf))
    check.hold(len(pages) <= count, f"{pdf.name}: {len(pages)} pages, {count} at most")
    for number, (width, height, words) in enumerate(pages, 1):
        where = f"{pdf.name}, page {number}"
        foot = height - 17.5
        for at, ((left, top, right, down), word) in enumerate(words):
            check.hold(
                left > 4 and top > 4 and right < width - 4 and down < height - 4, f"{where}: {word!r} is off it"
            )
            x_mm = (down - top) / TALL * X_HEIGHT
            small = x_mm < LEAST_X_MM and top < foot and word not in HEADS
            check.hold(not small, f"{where}: {word!r} is {x_mm:.2f} mm tall")
            # Ascent and descent are more than a line's letters fill.
            core = (left + 0.1, top + 0.3 * (down - top), right - 0.1, down - 0.25 * (down - top))
            for (a, b, c, d), other in words[at + 1 :]:
                b, d = b + 0.3 * (d - b), d - 0.25 * (d - b)
                meets = core[0] < c and a < core[2] and core[1] < d and b < core[3]
                check.hold(not meets, f"{where}: {word!r} meets {other!r}")
    return pages


def runs(row):
    """The lengths of the stretches of dark dots."""
    found, now = [], 0
    for dot in row:
        if dot:
            now += 1
        elif now:
            found.append(now)
            now = 0
    return found + [now]


def true_to_size(check, numpy, pillow, pdf, page, length_mm):
    """The check line, and the card: the part's length and 10 mm at either side, its line 0.5 mm."""
    picture = check.folder / f"{pdf.stem}-{page}"
    line = ["pdftoppm", "-r", "254", "-gray", "-f", str(page), "-l", str(page), "-singlefile", pdf, picture]
    subprocess.run(line, check=True)
    dark = numpy.asarray(pillow.open(f"{picture}.pgm")) < 150
    tall = dark.shape[0]
    found = [it for row in dark[tall - 175 :] for it in runs(row)]
    # A line's ends are round: its own width comes to its length.
    check.hold(any(abs(it - 402) <= 3 for it in found), f"{pdf.name}: no check line of 40 mm")
    found = [it for row in dark[tall - 700 : tall - 178] for it in runs(row)]
    wanted = 10 * (length_mm + 20) + 5
    off = min(abs(it - wanted) for it in found)
    check.hold(off <= 1, f"{pdf.name}, page {page}: the card is off by {off / 10} mm")


def greyscale(check, numpy, pillow, pdf, page):
    picture = check.folder / "colours"
    line = ["pdftoppm", "-r", "200", "-f", str(page), "-l", str(page), "-singlefile", pdf, picture]
    subprocess.run(line, check=True)
    image = pillow.open(f"{picture}.ppm")
    colours, grey = numpy.asarray(image).astype(int), numpy.asarray(image.convert("L")).astype(float)
    red = colours[:, :, 0] - colours[:, :, 2] > 20
    work = (abs(colours - 0xDE) < 2).all(axis=2)
    cut, left = grey[red].mean(), grey[work].mean()
    check.hold(left - cut > 0.2 * left, f"{pdf.name}: cut {cut:.0f} and work {left:.0f} of 255 in grey")


# Each pen that ships, with how many parts of it are turned.
PENS = {"heron": 3, "avocet": 3, "curlew": 4, "dunlin": 3, "godwit": 3, "whimbrel": 4}
PENS |= {"dotterel": 3, "plover": 5, "sandpiper": 2, "snipe": 4, "stilt": 3, "bittern": 4}


def sheet(check, numpy, pillow):
    if not shutil.which("pdftotext"):
        print("skipped: the sheet's words need pdftotext")
        return
    if not shutil.which("chromium"):
        print("skipped: the sheet's print needs chromium")
    for pen, turned in PENS.items():
        for paper in ("a4", "letter"):
            # Three pages, one a turned part, and at most one more; Heron's six on A4.
            most = 3 + turned + ((pen, paper) != ("heron", "a4"))
            one(check, numpy, pillow, pen, paper, most, min(turned, 3))


def one(check, numpy, pillow, pen, paper, most, least):
    """A sheet's words, and its HTML printed: as many pages of the same size, all lines at their length."""
    pdf = check.sheet_of(pen, f"{pen}-{paper}.pdf", "--paper", paper)
    pages = on_paper(check, pdf, most)
    seen = numpy and pillow and shutil.which("pdftoppm")
    cards = cards_of(check, pen, pages)
    check.hold(len(cards) >= least, f"{pdf.name}: {len(cards)} cards found")
    # Of several on a page the lowest is measured: the rest stand above what is searched.
    lowest = dict(cards).items() if seen else ()
    for page, length_mm in lowest:
        true_to_size(check, numpy, pillow, pdf, page, length_mm)
    if seen and (pen, paper) == ("heron", "a4"):
        greyscale(check, numpy, pillow, pdf, 3)
    if not shutil.which("chromium"):
        return
    html = check.sheet_of(pen, f"{pen}-{paper}.html", "--paper", paper)
    printed = check.folder / f"printed-{pen}-{paper}.pdf"
    profile = check.folder / "profile"
    flags = [*CHROMIUM.split(), f"--user-data-dir={profile}", f"--print-to-pdf={printed}"]
    subprocess.run(["chromium", *flags, html.as_uri()], capture_output=True)
    again = list(pages_of(printed))
    sizes = [tuple(round(it) for it in page[:2]) for page in pages]
    check.hold(
        [tuple(round(it) for it in page[:2]) for page in again] == sizes,
        f"{html.name}: printed on {len(again)} pages, {len(pages)} in the PDF",
    )
    for page, length_mm in lowest:
        true_to_size(check, numpy, pillow, printed, page, length_mm)


def cards_of(check, pen, pages):
    """Of each part with a card its page, and how long it is, page by page and down each page: `cap 1 : 1`
    stands beside a card."""
    got = check.run("measure", check.example(pen), "--format", "json")
    long = {part["name"]: part["length_mm"] for part in json.loads(got)["parts"] if not part["bought"]}
    found = []
    for number, (_, _, words) in enumerate(pages, 1):
        said = [word for _, word in words]
        on_it = [said[at - 1] for at in range(1, len(said) - 2) if said[at : at + 3] == ["1", ":", "1"]]
        found += [(number, long[name]) for name in on_it if name in long]
    return found
