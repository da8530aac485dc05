// SPDX-License-Identifier: MIT
/// @file
/// The whole page of a layout, or of several side by side: everything that a dealer prints and hands over.
#pragma once

#include <string>

#include <libflow/core/progress.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

/// Solves the layout and runs the studies that belong on its page.
/// @param answer    of this layout, usable
/// @param findings  what was measured on the built bar: it leads the page
[[nodiscard]] std::string dealer_page(const Layout& layout, const Answer& answer, const TextOptions& options = {},
                                      const Progress& progress = {}, const PageFindings& findings = {},
                                      const PageOrigin& origin = {});

/// Two layouts or more on one page, the difference first.
[[nodiscard]] std::string comparison_page(const Comparison& c, const TextOptions& options = {},
                                          const PageOrigin& origin = {});

}  // namespace libflow
