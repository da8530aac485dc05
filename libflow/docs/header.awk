# SPDX-License-Identifier: MIT
# Doxygen reads the headers through this. Lines keep their numbers.
# - A member that every part has by the concept PartType (parts/part.hpp) gets its one sentence here, where its header
#   says nothing more.
# - Names that share a line share the comment behind it: doxygen would give it to the last of them.
function sentence(line) {
  if (line ~ /^  static constexpr std::string_view kind =/) return "What it is called in messages and layout files."
  if (line ~ /^  static constexpr Contract contract =/) return "What it promises about its law."
  if (line ~ /^  static constexpr std::tuple inputs/) return "Its numeric inputs, in the order of law_on [SI]."
  if (line ~ /^  static constexpr bool symmetric =/) return "False: it loses more one way than the other."
  if (line ~ /^  void check\(std::string_view where\) const/) return "Refuses a value that no such part can have. @throws InputError naming field, value, what is allowed"
  if (line ~ /^  \[\[nodiscard\]\] Law law\(const LiquidState& liquid\) const/) return "Total-pressure drop [Pa] and slope against the flow [m3/s] in a liquid."
  if (line ~ /^  \[\[nodiscard\]\] BasicLaw<S> law_on\(/) return "Its law on any scalar: a double, a number with slopes, a pack."
  if (line ~ /^  \[\[nodiscard\]\] Length inside_bore\(\) const/) return "On which velocity, Reynolds number and static pressure are."
  if (line ~ /^  \[\[nodiscard\]\] Cautions cautions\(/) return "What a person should know of it at work: flow [m3/s], pressures [Pa gauge]."
  if (line ~ /^  \[\[nodiscard\]\] Passes passes\(\) const/) return "Which way liquid can pass."
  if (line ~ /^  \[\[nodiscard\]\] std::optional<double> shaft_power\(/) return "Power at the shaft at a flow [m3/s]: [W]; empty where it is not known."
  if (line ~ /^  \[\[nodiscard\]\] double reynolds_number\(/) return "Reynolds number at a flow [m3/s] [-]."
  return ""
}
function shared(line,    at, code, doc, type, names, n, i, out) {
  if (line !~ /^ +[^(),=;\/]* [a-z_0-9]+( = [^,;(]+|\{\})?(, [a-z_0-9]+( = [^,;(]+|\{\})?)+; *\/\/\/< /) return line
  at = index(line, "///< ")
  code = substr(line, 1, at - 1)
  doc = substr(line, at + 5)
  sub(/; *$/, "", code)
  n = split(code, names, ", ")
  match(names[1], /[a-z_0-9]+( = .*|\{\})?$/)
  type = substr(names[1], 1, RSTART - 1)
  names[1] = substr(names[1], RSTART)
  out = ""
  for (i = 1; i <= n; ++i) out = out type names[i] "; /**< " doc " */ "
  return out
}
function put(line, before) {
  line = shared(line)
  doc = FILENAME ~ /\/parts\// ? sentence(line) : ""
  if (doc == "" || before ~ /^ *\/\/\//) print line
  else { sub(/^  /, "  /** " doc " */ ", line); print line }
}
{
  # The sentence of a template stands before the word template.
  if (held != "") {
    doc = FILENAME ~ /\/parts\// ? sentence($0) : ""
    if (doc != "" && before_held !~ /^ *\/\/\//) sub(/^  /, "  /** " doc " */ ", held)
    print held
    print
    before = $0
    held = ""
    next
  }
  if ($0 ~ /^  template <class S>$/) { held = $0; before_held = before; next }
  put($0, before)
  before = $0
}
END { if (held != "") print held }
