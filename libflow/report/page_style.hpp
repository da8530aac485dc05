// SPDX-License-Identifier: MIT
/// @file
/// How a page looks: on a screen, light or dark, on a phone, and printed on letter or A4. No script, nothing fetched.
///
/// Colours are chosen for contrast of at least 4.5 to 1 for text and 3 to 1 for marks against their ground (WCAG 2.1,
/// success criteria 1.4.3 and 1.4.11); every mark that has a colour also differs in shape, pattern or words.
#pragma once

#include <string_view>

namespace libflow::report_detail {

inline constexpr std::string_view page_style = R"(
:root { --ground: #ffffff; --text: #1b1b1b; --quiet: #555555; --line: #8a8a8a; --faint: #d9d9d9; --band: #dcebd8;
  --bar: #1f6397; --out: #a13a00; --unsure: #7a5900; --pipe: #4a6f8a; --metal: #5c5c5c; }
@media (prefers-color-scheme: dark) { :root { --ground: #161616; --text: #ececec; --quiet: #b5b5b5; --line: #8f8f8f;
  --faint: #3a3a3a; --band: #26402a; --bar: #7fbfee; --out: #ff9d66; --unsure: #f0c040; --pipe: #9cc3e0; --metal: #b9b9b9; } }
@media print { :root { --ground: #ffffff; --text: #000000; --quiet: #444444; --line: #777777; --faint: #d0d0d0;
  --band: #e3eedf; --bar: #1f6397; --out: #a13a00; --unsure: #7a5900; --pipe: #4a6f8a; --metal: #5c5c5c; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 62rem; padding: 1rem; background: var(--ground); color: var(--text);
  font: 1rem/1.45 system-ui, "Segoe UI", "DejaVu Sans", sans-serif; }
h1 { font-size: 1.35rem; line-height: 1.3; margin: 0 0 .5rem; }
h2 { font-size: 1.1rem; margin: 1.6rem 0 .5rem; border-bottom: 1px solid var(--line); padding-bottom: .15rem; }
p { margin: .4rem 0; }
.facts, .note, footer { color: var(--quiet); }
.verdict { border: 2px solid var(--bar); padding: .7rem .9rem; margin-bottom: .6rem; display: grid;
  grid-template-columns: max-content 1fr; column-gap: .6rem; }
.verdict.bad { border-style: double; border-width: 5px; border-color: var(--out); }
.verdict.unsure { border-style: dashed; border-width: 4px; border-color: var(--unsure); }
.verdict > * { grid-column: 2; }
.verdict > .sign { grid-column: 1; font: bold 1.6rem/1.1 system-ui, "DejaVu Sans", sans-serif; color: var(--bar); }
.verdict.bad .sign { color: var(--out); }
.verdict.unsure .sign { color: var(--unsure); }
.side { display: flex; flex-wrap: wrap; gap: 0 1.5rem; }
.side > * { flex: 1 1 20rem; min-width: 0; }
.picture { display: block; width: 100%; max-width: 34rem; height: auto; }
.picture text { fill: var(--text); font: 11px system-ui, "DejaVu Sans", sans-serif; }
.picture text.small { font-size: 9px; }
.picture text.strong { font-weight: bold; }
.band { fill: var(--band); }
.limit { stroke: var(--line); stroke-dasharray: 4 3; }
.axis { stroke: var(--text); }
.grid { stroke: var(--faint); }
.bar { fill: var(--bar); stroke: var(--bar); }
.bar.out { fill: url(#outside); stroke: var(--out); stroke-width: 1.5; }
.hatch { stroke: var(--out); stroke-width: 2; }
.way { fill: none; stroke-width: 2; }
.way.most { stroke: var(--out); }
.way.least { stroke: var(--bar); stroke-dasharray: 7 4; }
circle.most { fill: var(--out); }
rect.least { fill: var(--ground); stroke: var(--bar); stroke-width: 1.5; }
.toolbar { stroke: var(--metal); stroke-width: 4; }
.ground { stroke: var(--line); stroke-dasharray: 2 3; }
.manifold { fill: var(--ground); stroke: var(--text); stroke-width: 1.5; }
.hose { fill: none; stroke: var(--pipe); stroke-width: 1.6; }
.hose.out { stroke: var(--out); stroke-width: 2.2; stroke-dasharray: 6 2; }
.hose.off { stroke: var(--faint); stroke-dasharray: 1 3; }
.outlet { fill: var(--text); }
.feed { stroke: var(--pipe); stroke-width: 3; }
.tank { fill: none; stroke: var(--text); stroke-width: 1.5; }
.liquid { fill: var(--band); }
.pump { fill: var(--ground); stroke: var(--text); stroke-width: 1.5; }
.wide { overflow-x: auto; margin: .4rem 0; }
.wide:focus-visible { outline: 2px solid var(--bar); }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; font-size: .92rem; }
caption { text-align: left; color: var(--quiet); padding-bottom: .2rem; }
th, td { border-bottom: 1px solid var(--faint); padding: .15rem .55rem; text-align: right; vertical-align: top; }
th.words, td.words { text-align: left; }
thead th { border-bottom: 1px solid var(--line); }
tbody th { font-weight: normal; }
th.words + td:last-child { white-space: nowrap; }
.map svg { min-width: 34rem; max-width: 52rem; width: 100%; height: auto; }
td.fill { min-width: 4rem; height: 1.7em; border: 1px solid var(--line); }
.byhand { line-height: 1.9; }
ul { margin: .3rem 0; padding-left: 1.2rem; }
li { margin: .25rem 0; }
ol { margin: .3rem 0; padding-left: 1.6rem; }
@media (max-width: 30rem) { body { padding: .6rem; } table { font-size: .74rem; } th, td { padding: .12rem .18rem; }
  td.fill { min-width: 1.7rem; } .side { gap: 0; } .side > * { flex-basis: 100%; } }
@media print { html { font-size: 9pt; } body { max-width: none; padding: 0; } .wide { overflow: visible; }
  table, .picture, .verdict { break-inside: avoid; } h2 { break-after: avoid; } h2 { margin-top: 1.1rem; }
  th, td { padding: .08rem .5rem; } .picture { max-width: 9.5cm; } .map svg { max-width: 17cm; } }
@page { margin: 14mm; }
)";

/// What pictures of the page share: the hatch of what is outside.
inline constexpr std::string_view page_patterns =
    "<svg width=\"0\" height=\"0\" style=\"position:absolute\" aria-hidden=\"true\"><defs><pattern id=\"outside\" "
    "width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><line class=\"hatch\" "
    "x1=\"0\" y1=\"0\" x2=\"0\" y2=\"5\"/></pattern></defs></svg>\n";

}  // namespace libflow::report_detail
