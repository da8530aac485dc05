// SPDX-License-Identifier: MIT
// A pump feeds two rows through hoses of different length: what does each get of cold polyphosphate?
#include <libflow/libflow.hpp>

using namespace libflow;
using namespace libflow::units;

int main() {
  Network n;
  n.add_supply("pump", 30.0 * psi);
  for (const double feet : {4.0, 20.0}) {
    const std::string row = fmt::format("{:.0f} ft row", feet);
    n.add_place(row + " end");
    n.add_air(row);
    n.add_part(row + " hose", "pump", row + " end", Hose{.length = feet * ft, .bore = 0.25 * inch});
    n.add_part(row + " orifice", row + " end", row, Orifice{.bore = 0.046 * inch});
  }
  const Solution answer = solve(n, find_liquid("10-34-0").at(fahrenheit(40)));
  for (const char* row : {"4 ft row", "20 ft row"}) {
    fmt::print("{:9} {:.4f} gpm\n", row, answer.parts[n.find_part(std::string(row) + " orifice")].flow / si(gpm));
  }
  return answer.usable() ? 0 : 1;
}
