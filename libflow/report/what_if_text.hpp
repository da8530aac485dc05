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

std::string what_if_verdict(const WhatIf& w);

}  // namespace report_detail

/// The what-if of one layout, at most TextOptions::width columns wide.
[[nodiscard]] std::string what_if_text(const WhatIf& w, const TextOptions& options = {});

}  // namespace libflow
