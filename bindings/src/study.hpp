// SPDX-License-Identifier: MIT
/// @file
/// How a study goes to Python: its JSON and its report, which libflow/_studies.py wraps.
#pragma once

#include <string>

#include <libflow/file/results_json.hpp>
#include <libflow/report/words.hpp>

#include "answers.hpp"
#include "progress.hpp"

namespace libflow::python {

/// (JSON, report in the layout's units, in US units, in metric ones).
template <class ReportOf>
py::tuple study(const Json& json, const ReportOf& report) {
  const auto in = [&](std::optional<UnitSystem> units) { return report(TextOptions{.units = units}); };
  return py::make_tuple(to_text(json), in(std::nullopt), in(UnitSystem::us), in(UnitSystem::metric));
}

/// An option of a study, where it is given.
template <class M>
void take(const py::dict& options, const char* name, M& to) {
  if (options.contains(name)) to = Convert<M>::from(options[name], name);
}
inline void take_share(const py::dict& options, const char* name, double& to) {
  if (options.contains(name)) to = quantity_from(Kind::fraction, options[name], name);
}
inline void take_count(const py::dict& options, const char* name, std::size_t& to) {
  if (!options.contains(name)) return;
  const int count = count_from(options[name], name);
  if (count < 0) throw InputError(name, std::to_string(count), "0 or more");
  to = static_cast<std::size_t>(count);
}

}  // namespace libflow::python
