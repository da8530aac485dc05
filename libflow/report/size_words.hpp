// SPDX-License-Identifier: MIT
/// @file
/// Words for sizing: orifices, cuts, operating points, what binds.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <libflow/study/size_choices.hpp>
#include <libflow/study/size_problem.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/system.hpp>

namespace libflow::report_detail {

/// "0.039 in (1.00 mm)", "1.00 mm", or what it passes.
std::string orifice_text(const OrificeChoice& choice, UnitSystem u);

/// "5.0 mph, 5.00 gal/ac, 40.0 °F, level".
std::string working_point_text(const WorkingPoint& p, UnitSystem u);

/// "4.0 to 6.0 mph, 5.00 gal/ac, 40.0 to 70.0 °F, level to 8.0 %": what the operating points span.
std::string span_text(const std::vector<WorkingPoint>& points, UnitSystem u);

/// Pieces of one length and whose they are, longest first: "8 of 20 ft 6 in (rows 1 to 4, 13 to 16), 8 of ...".
std::string pieces_text(const SizeProblem& p, const HosePlan& plan, UnitSystem u);

/// A cut in a narrow column: 20'7" or 6.28, as cut_text.
std::string short_cut_text(double metres, UnitSystem u);

std::string feed_text(ManifoldFeed feed);
/// "in its middle", "at its left end", "at both ends". @param whose  "its" or "the"
std::string feed_place_text(ManifoldFeed feed, std::string_view whose);

/// "evenness, row 16 is 6.0 % below the mean and 5.0 % is allowed, at 4.0 mph, ...".
std::string binding_text(const SizeProblem& p, const SizeBinding& b, UnitSystem u);
/// The same of a point that is not of the problem.
std::string binding_text(const WorkingPoint& at, const SizeBinding& b, UnitSystem u);

}  // namespace libflow::report_detail
