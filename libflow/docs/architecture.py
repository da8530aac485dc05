#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Draws which room includes from which, from the #include lines themselves: libflow/docs/architecture.svg.

    architecture.py            writes the picture anew
    architecture.py --check    exit code 1 when the picture is not what the code gives, or an arrow goes the wrong way

Rooms stand on the diagonal in the order in which data goes. The number left of a room and below another says how many
#include lines of the first name a header of the second. Above the diagonal nothing may stand.
"""

import re
import sys
from pathlib import Path

ROOMS = {  # in the order that tests/package/room_order.cmake enforces; the words are those of DEVELOPERS.md
    "core": "errors, cautions, ranges",
    "units": "typed quantities, text",
    "fluid": "liquids",
    "physics": "pure formulas",
    "parts": "what a person buys or cuts",
    "network": "places and parts",
    "solve": "network to solution",
    "toolbar": "rows, rate, evenness",
    "study": "questions",
    "file": "layouts in, JSON and CSV out",
    "report": "text, pages, pictures",
    "app": "the program",
}
ROOT = Path(__file__).resolve().parents[1]  # libflow/
PICTURE = Path(__file__).resolve().parent / "architecture.svg"
INCLUDE = re.compile(r"^\s*#\s*include\s*<libflow/([a-z_]+)[./]", re.MULTILINE)


def count_includes():
    """(from, to) -> number of #include lines, and room -> number of files. The umbrella, the version and what a room
    includes of itself are left out."""
    arrows, sizes = {}, {}
    for room in ROOMS:
        files = sorted(ROOT.glob(f"{room}/*.[hc]pp"))
        texts = [file.read_text(encoding="utf-8") for file in files]
        sizes[room] = len(files)
        for target in INCLUDE.findall("\n".join(texts)):
            if target in ROOMS and target != room:
                arrows[room, target] = arrows.get((room, target), 0) + 1
    return arrows, sizes


def draw(arrows, sizes):
    names = list(ROOMS)
    cell_x, cell_y, box_w, box_h, left, top = 64, 46, 176, 34, 24, 24
    width = left + cell_x * (len(names) - 1) + box_w + 24
    height = top + cell_y * len(names) + 8

    def at(room):
        i = names.index(room)
        return left + cell_x * i, top + cell_y * i

    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" '
        'font-family="sans-serif" font-size="12" role="img" aria-labelledby="title">',
        '<title id="title">Which room of libflow includes from which, with the number of include lines</title>',
        '<defs><marker id="tip" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="7" markerHeight="7" orient="auto">'
        '<path d="M0 0L8 4L0 8z" fill="#8a8f98"/></marker></defs>',
        f'<rect width="{width}" height="{height}" fill="#ffffff"/>',
    ]
    # One line left from a room, and one arrow up into each room that something below includes.
    for room in names:
        x, y = at(room)
        to = [at(b)[0] + 24 for a, b in arrows if a == room]
        if to:
            out.append(f'<path d="M{x} {y + box_h // 2}H{min(to)}" stroke="#d0d4da" fill="none"/>')
        below = [at(a)[1] + box_h // 2 for a, b in arrows if b == room]
        if below:
            out.append(f'<path d="M{x + 24} {max(below)}V{y + box_h + 2}" stroke="#8a8f98" fill="none" '
                       'marker-end="url(#tip)"/>')
    for (a, b), count in sorted(arrows.items(), key=lambda item: (names.index(item[0][0]), names.index(item[0][1]))):
        x, y = at(b)[0] + 24, at(a)[1] + box_h // 2
        out.append(f'<rect x="{x - 15}" y="{y - 9}" width="30" height="18" rx="9" fill="#eef1f5" stroke="#8a8f98"/>')
        out.append(f'<text x="{x}" y="{y + 4}" text-anchor="middle" fill="#1c1f24">{count}</text>')
    for room in names:
        x, y = at(room)
        out.append(f'<rect x="{x}" y="{y}" width="{box_w}" height="{box_h}" rx="4" fill="#1f4e79"/>')
        out.append(f'<text x="{x + 8}" y="{y + 14}" fill="#ffffff" font-weight="bold">{room}'
                   f'<tspan font-weight="normal" dx="6">{sizes[room]} files</tspan></text>')
        out.append(f'<text x="{x + 8}" y="{y + 28}" fill="#ffffff" font-size="11">{ROOMS[room]}</text>')
    out.append("</svg>")
    return "\n".join(out) + "\n"


def main():
    arrows, sizes = count_includes()
    names = list(ROOMS)
    wrong = [f"{a} includes from {b}, which is below it ({n} lines)" for (a, b), n in arrows.items()
             if names.index(b) > names.index(a)]
    if len(arrows) < len(ROOMS) or wrong:
        print("\n".join(wrong) or f"hardly an include found below {ROOT}: nothing was checked", file=sys.stderr)
        return 1
    picture = draw(arrows, sizes)
    if sys.argv[1:] == ["--check"]:
        if not PICTURE.exists() or PICTURE.read_text(encoding="utf-8") != picture:
            print(f"{PICTURE.name} is not what the code gives; write it anew: libflow/docs/make architecture",
                  file=sys.stderr)
            return 1
        return 0
    if sys.argv[1:]:
        print(__doc__, file=sys.stderr)
        return 2
    PICTURE.write_text(picture, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
