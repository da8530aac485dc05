// SPDX-License-Identifier: MIT
// Studies that list: sizes to buy, equal hoses, orders, lines, nutrients, the setting card.
#include <libflow/file/layout_size.hpp>
#include <libflow/file/lines_json.hpp>
#include <libflow/file/nutrients_json.hpp>
#include <libflow/file/order_list_json.hpp>
#include <libflow/file/setting_card_json.hpp>
#include <libflow/file/size_json.hpp>
#include <libflow/report/equal_hoses_text.hpp>
#include <libflow/report/lines_text.hpp>
#include <libflow/report/nutrients_text.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/report/setting_card_text.hpp>
#include <libflow/report/size_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/agronomy.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/lines.hpp>
#include <libflow/study/order_list.hpp>
#include <libflow/study/setting_card.hpp>
#include <libflow/study/size.hpp>

#include "layout.hpp"
#include "module.hpp"
#include "study.hpp"

namespace libflow::python {

LIBFLOW_NAMES(Cut, "equal", "shortest", "rounded", "two_lengths");

namespace {

SizeChoices choices_from(const py::dict& options, SizeChoices c) {
  take(options, "orifices", c.orifices);
  take(options, "hose_bores", c.hose_bores);
  take(options, "hose_prices", c.hose_prices);
  take(options, "cuts", c.cuts);
  take(options, "step", c.step);
  take(options, "cut_to", c.cut_to);
  take(options, "extra", c.extra);
  take(options, "manifold_bores", c.manifold_bores);
  take(options, "feeds", c.feeds);
  take(options, "cracks", c.cracks);
  take(options, "speeds", c.speeds);
  take(options, "rates", c.rates);
  take(options, "temperatures", c.temperatures);
  take(options, "side_slopes", c.side_slopes);
  take(options, "least_pressure", c.least_pressure);
  take(options, "most_pressure", c.most_pressure);
  take(options, "good_practice", c.good_practice);
  take_count(options, "verify", c.verify);
  if (options.contains("groups")) {
    c.groups.clear();
    for (const auto& [name, rows] : options["groups"].cast<py::dict>()) {
      c.groups.push_back({text_from(name, "groups"), Convert<std::vector<int>>::from(rows, "groups")});
    }
  }
  return c;
}

/// A layout, or a layout file with its [size].
SizeFile size_file(const py::object& layout) {
  if (py::isinstance<Layout>(layout)) return {.layout = layout.cast<Layout>(), .choices = {}};
  return read_size(std::string(py::str(py::module_::import("os").attr("fspath")(layout))));
}

py::tuple run_size(const py::object& layout, const py::dict& options, const py::object& progress) {
  const SizeFile file = size_file(layout);
  const SizeChoices choices = choices_from(options, file.choices);
  const Progress tell = progress_from(progress);
  SizeAnswer a;
  {
    const py::gil_scoped_release release;
    a = size_toolbar(file.layout, choices, tell);
  }
  return study(size_to_json(a), [&](const TextOptions& t) { return size_text(a, t); });
}

py::tuple run_equal_hoses(const py::object& layout, const py::dict& options, const py::object& progress) {
  const SizeFile file = size_file(layout);
  const SizeChoices choices = choices_from(options, file.choices);
  const Progress tell = progress_from(progress);
  EqualHoses a;
  {
    const py::gil_scoped_release release;
    a = equal_hoses(file.layout, choices, tell);
  }
  return study(equal_hoses_to_json(a), [&](const TextOptions& t) { return equal_hoses_text(a, t); });
}

py::tuple run_order_list(const Layout& layout, const py::dict& options) {
  OrderOptions o;
  take_share(options, "waste", o.waste);
  take(options, "coil", o.coil);
  take(options, "tape", o.tape);
  // Cuts are rounded to the tape of the units that they are read in, unless one is given.
  return study(order_list_to_json(order_list(layout, o)), [&](const TextOptions& t) {
    OrderOptions in_units = o;
    if (!o.tape && t.units) in_units.tape = t.units;
    return order_list_text(order_list(layout, in_units), t);
  });
}

py::tuple run_lines(const Layout& layout, const py::dict& options) {
  LinesOptions o;
  take_share(options, "share", o.share);
  take(options, "control", o.control);
  take(options, "hose_modulus", o.hose_modulus);
  take_share(options, "wall_share", o.wall_share);
  const Lines l = lines(layout, o);
  return study(lines_to_json(l), [&](const TextOptions& t) { return lines_text(l, t); });
}

py::tuple run_nutrients(const Layout& layout, const py::dict& options) {
  AgronomyOptions o;
  if (options.contains("crop")) o.crop = parse_crop(text_from(options["crop"], "crop"), "crop");
  if (options.contains("soil")) o.soil = parse_soil(text_from(options["soil"], "soil"), "soil");
  take(options, "water_temperature", o.water_temperature);
  take(options, "furrow", o.furrow);
  const Agronomy a = agronomy(layout, o);
  return study(nutrients_to_json(a), [&](const TextOptions& t) { return nutrients_text(a, t); });
}

py::tuple run_setting_card(const Layout& layout, const py::dict& options) {
  SettingCardOptions o;
  take(options, "speeds", o.speeds);
  take(options, "rates", o.rates);
  take(options, "catch_time", o.catch_time);
  const SettingCard card = setting_card(layout, o);
  return study(setting_card_to_json(card), [&](const TextOptions& t) { return setting_card_text(card, t); });
}

}  // namespace

void add_studies_list(py::module_& m) {
  m.def("_size", &run_size);
  m.def("_equal_hoses", &run_equal_hoses);
  m.def("_order_list", &run_order_list);
  m.def("_lines", &run_lines);
  m.def("_nutrients", &run_nutrients);
  m.def("_setting_card", &run_setting_card);
}

}  // namespace libflow::python
