// SPDX-License-Identifier: MIT
/// @file
/// What can go wrong with a toolbar, one thing at a time, as changes to its plumbing, its liquid or its ground.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <libflow/parts.hpp>
#include <libflow/study/fault_options.hpp>
#include <libflow/study/plumbing_edit.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

/// One fault as it would be on this layout.
struct FaultCase {
  Fault fault = Fault::row_plugged;                       ///< what goes wrong
  std::string name{};                                     ///< "row 8 plugged"
  std::vector<int> rows{};                                ///< whose own fault it is; empty: the whole toolbar's
  std::string why_not{};                                  ///< why it does not apply to this layout; empty: it applies
  std::string limited{};                                  ///< why it is smaller than asked; empty: it is not
  std::function<PlumbingEdit(const Plumbing&)> edit{};    ///< asked anew for every setting of the control
  std::optional<Temperature> temperature = std::nullopt;  ///< of the liquid, where it changes

  /// True where the layout has what goes wrong.
  [[nodiscard]] bool applies() const { return why_not.empty(); }
};

namespace faults_detail {

bool any_pump(const Plumbing& p);

}  // namespace faults_detail

/// Every fault as it would be on this layout, those that do not apply with the reason.
/// @param plumbing  of the layout
/// @throws InputError for options out of range
[[nodiscard]] std::vector<FaultCase> fault_cases(const Layout& layout, const Plumbing& plumbing,
                                                 const WhatIfOptions& o = {});

}  // namespace libflow
