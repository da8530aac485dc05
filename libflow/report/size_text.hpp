// SPDX-License-Identifier: MIT
/// @file
/// Sizing as text for people: what to buy, why, what else would do.
#pragma once

#include <string>

#include <libflow/core/caution.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/size_problem.hpp>

namespace libflow {

namespace report_detail {

/// Of the list itself and of the liquids.
Cautions size_cautions(const SizeProblem& p);

}  // namespace report_detail

/// The sizing of one layout, at most TextOptions::width columns wide; opens with the verdict.
[[nodiscard]] std::string size_text(const SizeAnswer& a, const TextOptions& options = {});

}  // namespace libflow
