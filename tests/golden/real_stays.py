"""Stays from public data sets as counts, and what R's packages say of them, or a product of matrices says again.

Sources: Debian's r-cran-etm 1.1.1-1 (`los.data`, hospital stays, GPL 2 or later), r-cran-survival 3.5-3-1 (`transplant`,
a surgical waiting list, and `lung`, GPL 2), r-cran-boot 1.3-28.1-1 (`channing`, late entry, unlimited distribution).
Only counts of (first day watched, last day, ending) are kept. `published` are figures computed with R's `etm` and
`survival` 3.5; `product` multiplies transition matrices in fractions (brute force).

Run: apt-get download r-cran-etm r-cran-survival r-cran-boot; dpkg-deb -x each into a folder; pip install rdata;
python3 real_stays.py <folder> > real-stays.json
"""
import collections
import csv
import gzip
import json
import lzma
import sys
import warnings
import zlib
from fractions import Fraction as F

import rdata

warnings.simplefilter("ignore")
ROOT = sys.argv[1] + "/usr/lib/R/"


def lazy(base, name):
    """An object of a package's lazy-load data base: a compressed serialization behind its length and, for xz, a Z."""
    convert = lambda data: rdata.conversion.convert(rdata.parser.parse_data(data, extension=".rds"))
    index = open(base + ".rdx", "rb").read()
    offset, length = convert((gzip if index[:2] == b"\x1f\x8b" else zlib).decompress(index))["variables"][name]
    piece = open(base + ".rdb", "rb").read()[offset:offset + length]
    if piece[4:5] == b"Z":
        return convert(lzma.decompress(piece[5:], lzma.FORMAT_RAW, filters=[{"id": lzma.FILTER_LZMA2}]))
    return convert(zlib.decompress(piece[4:]))


def los():
    rows = csv.DictReader(gzip.open(ROOT + "site-library/etm/data/los.data.csv.gz", "rt"), delimiter=";")
    for row in rows:
        time = lambda *names: min(float(row[name]) for name in names)
        ends = {"onward": time("j.02", "j.12"), "died": time("j.03", "j.13"), None: time("cens")}
        ending = min(ends, key=ends.get)
        yield 0, int(ends[ending]), ending


def transplant():
    names = {"ltx": "onward", "death": "died", "withdraw": "left", "censored": None}
    table = lazy(ROOT + "library/survival/data/Rdata", "transplant")
    return [(0, int(t), names[str(e)]) for t, e in zip(table.futime, table.event)]


def lung():
    table = lazy(ROOT + "library/survival/data/Rdata", "cancer")
    return [(0, int(t), "died" if s == 2 else None) for t, s in zip(table.time, table.status)]


def channing():
    table = lazy(ROOT + "library/boot/data/Rdata", "channing")
    men = [(int(a), int(b), c) for a, b, c, s in zip(table.entry, table.exit, table.cens, table.sex) if s == "Male" and a < b]
    # R counts at risk who entered before the month, so the first month with a trial is the next one.
    return [(a + 1, b, "died" if c == 1 else None) for a, b, c in men]


def product(stays, at):
    alive, cif = F(1), collections.Counter()
    rows = {}
    for d in range(max(at) + 1):
        risk = [s for s in stays if s[0] <= d <= s[1]]
        for ending in ("onward", "died", "left"):
            cif[ending] += alive * F(sum(s[1] == d and s[2] == ending for s in risk), max(1, len(risk)))
        alive *= 1 - F(sum(s[1] == d and s[2] is not None for s in risk), max(1, len(risk)))
        rows[d] = [float(alive), *(float(cif[e]) for e in ("onward", "died", "left"))]
    return [[d, *rows[d]] for d in at]


def entry(stays, at, published):
    counts = collections.Counter(stays)
    return {"stays": sorted(([*s, n] for s, n in counts.items()), key=str), "product": product(list(stays), at), "published": published}


print(json.dumps({
    "los": entry(list(los()), [5, 10, 20, 40], {"onward": [[5, .3002645503], [10, .5436507937], [20, .6732804233], [40, .7248677249]]}),
    "transplant": entry(transplant(), [7, 30, 90], {"onward": [[90, .3182431]], "died": [[90, .0443869]], "left": [[90, .0111020]]}),
    "lung": entry(lung(), [60, 180, 309, 310], {"survival": [[180, .7216706534]]}),
    "channing": entry(channing(), [770, 780, 781, 900], {"survival": [[781, 0]]}),
}).replace('], "', '],\n"'))
