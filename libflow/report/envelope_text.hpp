// SPDX-License-Identifier: MIT
/// @file
/// An envelope as text for people: usable speeds of every rate, and a small map.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/envelope.hpp>

namespace libflow {

/// At most TextOptions::width columns wide; opens with the answer for the job's own rate.
[[nodiscard]] std::string envelope_text(const Envelope& e, const TextOptions& options = {});

}  // namespace libflow
