// SPDX-License-Identifier: MIT
/// @file
/// Every row of a toolbar with its own values filled in, and the even reference that causes are measured from.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/parts.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

/// What can make rows differ; set: as the layout says, clear: as the even reference has it.
struct Causes {
  bool hoses = true;         ///< reference: every row has the mean hose length and the common bore
  bool manifold = true;      ///< reference: bars and feed hoses lose nothing
  bool slope = true;         ///< reference: level ground, outlets at one height
  bool orifices = true;      ///< reference: the common orifice
  bool check_valves = true;  ///< reference: the common crack pressure
};

namespace build_detail {

struct Row {
  int number = 0;
  double x = 0, hose_length = 0, hose_bore = 0, height = 0, width = 0;
  bool shut = false;
  std::optional<OrificeChoice> orifice;
  std::optional<CheckValveChoice> check_valve;
  std::optional<Pressure> crack;  ///< the row's own; empty: the check valve's
  std::size_t manifold = 0;
  double port_x = 0;
};

Orifice make_orifice(const OrificeChoice& choice, std::string_view where);

/// @param crack  another spring in the same valve
CheckValve make_check_valve(const CheckValveChoice& choice, std::optional<Pressure> crack, std::string_view where);

std::string manifold_name(const Toolbar& t, std::size_t m);

void check(const Toolbar& t);

/// Rows with their own values filled in, in row order.
std::vector<Row> make_rows(const Toolbar& t);

/// Sets the rows' own values to the even reference where a cause is off.
void level_rows(std::vector<Row>& rows, const Toolbar& t, const Causes& causes);

}  // namespace build_detail
}  // namespace libflow
