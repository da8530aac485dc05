// SPDX-License-Identifier: MIT
#include <libflow/file/layout_tank.hpp>

#include <string_view>
#include <utility>
#include <vector>

#include <libflow/file/layout_part_keys.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/parts/tank.hpp>

namespace libflow {

namespace file_detail {

FilledTank read_tank(const TomlTable& t) {
  enum class Shape { upright_round, upright_box, lying_round, lying_oval, dipstick };
  static const Choices<Shape> shapes{{"upright_round", Shape::upright_round},
                                     {"upright_box", Shape::upright_box},
                                     {"lying_round", Shape::lying_round},
                                     {"lying_oval", Shape::lying_oval},
                                     {"dipstick", Shape::dipstick}};
  const Shape shape = t.choice<Shape>("shape", shapes);
  std::vector<std::string_view> keys{"shape", "level", "outlet_level", "lowest_level", "top_pressure"};
  FilledTank filled;
  const auto size = [&](std::string_view key, Range range) {
    keys.push_back(key);
    return t.quantity<Length>(key, range);
  };
  switch (shape) {
    case Shape::upright_round: {
      const Length diameter = size("diameter", Tank::length_range);
      filled.tank.shape = UprightTank::round(diameter, size("height", Tank::height_range));
      break;
    }
    case Shape::upright_box: {
      const Length length = size("length", Tank::length_range);
      const Length width = size("width", Tank::length_range);
      filled.tank.shape = UprightTank::box(length, width, size("height", Tank::height_range));
      break;
    }
    case Shape::lying_round: {
      const Length diameter = size("diameter", Tank::height_range);
      filled.tank.shape = LyingTank::round(diameter, size("length", Tank::length_range));
      break;
    }
    case Shape::lying_oval: {
      const Length height = size("height", Tank::height_range);
      const Length width = size("width", Tank::height_range);
      filled.tank.shape = LyingTank{.height = height, .width = width, .length = size("length", Tank::length_range)};
      break;
    }
    case Shape::dipstick: {
      keys.push_back("dipstick");
      TankTable table;
      for (const auto& [level, volume] :
           t.pairs<Length, Volume>("dipstick", {0.0, Tank::height_range.high}, {0.0, 1e5})) {
        table.rows.push_back({.level = level, .volume = volume});
      }
      filled.tank.shape = std::move(table);
      break;
    }
  }
  require_fitting_keys(t, layout_keys::tank, fmt::format("shape = \"{}\"", t.text("shape")), keys);
  const Range levels{0.0, Tank::height_range.high};
  filled.tank.top_pressure = quantity_or(t, "top_pressure", Tank::top_pressure_range, filled.tank.top_pressure);
  filled.tank.outlet_level = quantity_or(t, "outlet_level", levels, filled.tank.outlet_level);
  filled.tank.lowest_level = quantity_or(t, "lowest_level", levels, filled.tank.outlet_level);
  filled.level = t.quantity<Length>("level", levels);
  return filled;
}

}  // namespace file_detail

}  // namespace libflow
