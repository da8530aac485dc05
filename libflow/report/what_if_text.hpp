// SPDX-License-Identifier: MIT
/// @file
/// What faults do, as text for people: one table with the total held, one with the setting kept, and who would notice.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/what_if.hpp>

namespace libflow {

namespace report_detail {

std::string change_percent(double change);

std::string notice_text(Notice n);

/// What goes wrong, in a person's units and with the length of a hose that is narrow all along: for a fault's name.
std::string fault_text(const WhatIf& w, const FaultCase& fault, UnitSystem u);

std::string what_if_verdict(const WhatIf& w);

}  // namespace report_detail

/// The what-if of one layout, at most TextOptions::width columns wide.
[[nodiscard]] std::string what_if_text(const WhatIf& w, const TextOptions& options = {});

}  // namespace libflow
