// SPDX-License-Identifier: MIT
/// @file
/// One self-contained page for a layout: what a dealer prints. Opens with the verdict; needs no script and no network.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <libflow/core/caution.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/units/system.hpp>
#include <libflow/version.hpp>

namespace libflow {

/// A further section of a page, made by a study's own header.
struct PageSection {
  std::string id;       ///< a word, unique on the page
  std::string heading;  ///< for the reader
  std::string html;     ///< its content, without a heading
};

/// What was found on the built bar: it leads the page, the prediction stands beside it.
struct PageFindings {
  std::string sentence;                 ///< for the box at the top; empty: nothing was measured, the prediction leads
  bool good = true;                     ///< how the box looks
  std::vector<PageSection> sections{};  ///< the first of the page
};

/// Where a page is from, so that a sheet of paper can be told from another.
struct PageOrigin {
  std::string file{};  ///< the layout's file, or several; empty: not named
  std::string date{};  ///< of the page, e.g. 2026-11-26 (ISO 8601); empty: none
};

namespace report_detail {

std::string whole_page(std::string_view title, std::string_view body);

/// The box at the top: a sign ahead of the sentence, a border of its own for each state; colour is never the only sign.
/// @param below  a line below it; may be empty
std::string verdict_box(std::string_view sentence, VerdictState state, std::string_view below = {});

/// The box at the top. Findings lead; what the layout predicts stands below them.
std::string findings_box(const PageFindings& findings, const Answer& answer);

/// Which layout this is, with its job; its file and the date.
std::string facts_html(const Answer& answer, const PageOrigin& origin, UnitSystem u);

/// File and date; nothing where none is given.
std::string origin_html(const PageOrigin& origin);

std::string product_html(const LiquidState& l, UnitSystem u);

std::string cautions_html(const Cautions& cautions);

}  // namespace report_detail

/// The page of one layout.
/// @param sections  what further studies have to say, in the order of the page
/// @param findings  what was measured on the built bar
[[nodiscard]] std::string layout_page(const Answer& answer, const std::vector<PageSection>& sections = {},
                                      const TextOptions& options = {}, const PageFindings& findings = {},
                                      const PageOrigin& origin = {});

}  // namespace libflow
