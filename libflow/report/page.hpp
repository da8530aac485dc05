// SPDX-License-Identifier: MIT
/// @file
/// One self-contained page for a layout: what a dealer prints. Opens with the verdict; needs no script and no network.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <libflow/core/caution.hpp>
#include <libflow/fluid/liquid.hpp>
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

namespace report_detail {

std::string whole_page(std::string_view title, std::string_view body);

std::string verdict_box(std::string_view sentence, bool good);

std::string product_html(const LiquidState& l, UnitSystem u);

std::string cautions_html(const Cautions& cautions);

}  // namespace report_detail

/// The page of one layout.
/// @param sections  what further studies have to say, in the order of the page
[[nodiscard]] std::string layout_page(const Answer& answer, const std::vector<PageSection>& sections = {},
                                      const TextOptions& options = {});

}  // namespace libflow
