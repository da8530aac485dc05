// SPDX-License-Identifier: MIT
/// @file
/// An envelope as a picture: one SVG, self-contained, readable without colour.
///
/// Every cell says its state three times, by colour, by lightness and by pattern, and has the letter of the limit that
/// binds. The ring with the word 'job' is the job's own operating point.
#pragma once

#include <string>
#include <string_view>

#include <libflow/study/envelope.hpp>

namespace libflow {

namespace report_detail {

/// Fill of a state: light, middle, dark; the pattern is laid over it.
std::string_view state_fill(PointState state);

}  // namespace report_detail

/// A picture by itself has a heading; on a page the section has it.
enum class EnvelopeHeading { own, none };

/// The picture. @param units  empty: as the layout asks
[[nodiscard]] std::string envelope_svg(const Envelope& e, std::optional<UnitSystem> units = std::nullopt,
                                       EnvelopeHeading heading = EnvelopeHeading::own);

}  // namespace libflow
