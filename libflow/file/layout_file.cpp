// SPDX-License-Identifier: MIT
#include <libflow/file/layout_file.hpp>

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>

#include <libflow/file/layout_drive.hpp>
#include <libflow/file/layout_job.hpp>
#include <libflow/file/layout_network.hpp>
#include <libflow/file/layout_size.hpp>
#include <libflow/file/layout_tolerances.hpp>
#include <libflow/file/layout_toolbar.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quote.hpp>

namespace libflow {

namespace file_detail {

static Layout read_tables(const TomlTable& without_units, std::string_view file) {
  TomlTable top = without_units;
  Layout layout;
  if (top.has("units")) {
    layout.units = top.choice<UnitSystem>("units", {{"us", UnitSystem::us}, {"metric", UnitSystem::metric}});
  }
  top.set_units(layout.units);
  layout.name = top.has("name") ? top.text("name") : std::filesystem::path(file).stem().string();

  const bool free_form = top.has("place") || top.has("part");
  if (!free_form && !top.has("toolbar")) {
    top.fail({}, "nothing is plumbed", "a [toolbar], or [[place]] and [[part]]");
  }
  if (free_form) {
    for (const std::string_view key : {"toolbar", "manifold", "hose", "orifice", "check_valve", "row"}) {
      if (!top.has(key)) continue;
      top.fail(key, "does not go with [[place]] and [[part]]", "a [toolbar] or a free form, not both");
    }
    for (const std::string_view key : drive_tables) {
      if (top.has(key)) top.fail(key, "does not go with [[place]] and [[part]]", "tanks and pumps as places and parts");
    }
  }
  if (!free_form && top.has("tee")) {
    top.fail("tee", "does not go with a [toolbar]", "junction_losses = true in its [[manifold]]: every port is a tee");
  }
  layout.job = read_job(top);
  if (free_form) {
    layout.plumbing = read_plumbing(top, layout.job);
  } else {
    Toolbar bar = read_toolbar(top);
    if (has_drive(top)) bar.drive = read_drive(top, layout.job);
    if (bar.drive && layout.job.pressure) {
      top.table("job", layout_keys::job)
          .fail("pressure", "the drive makes the pressure", "a setting in [drive], or no pressure");
    }
    layout.plumbing = std::move(bar);
  }
  layout.range = read_range(top);
  layout.tolerances = read_tolerances(top, layout);
  (void)read_size(top, layout);  // what is wrong in it is told by every command, not by those only that use it
  return layout;
}

}  // namespace file_detail

Layout parse_layout(std::string_view toml_text, std::string_view file_name) {
  check_text(toml_text, file_name);
  const toml::table table = file_detail::parse_toml(toml_text, file_name);
  return file_detail::read_tables({table, file_name, "", layout_keys::top}, file_name);
}

Layout read_layout(const std::filesystem::path& path) { return parse_layout(read_text_file(path), path.string()); }

}  // namespace libflow
