// SPDX-License-Identifier: MIT
/// @file
/// Readings of a catch test and what is found in them, for the studies and for the page.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_readings.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>

#include "study.hpp"

namespace libflow::python {

/// Options of a catch test's plan and statistics. @throws InputError naming the option
CatchSetup catch_setup(const py::dict& options);
/// Options of a diagnosis.
DiagnosisSetup diagnosis_setup(const py::dict& options);

/// What cups say: a verdict for each catch and, for a toolbar, what is wrong with it.
struct CatchFindings {
  std::vector<CatchVerdict> verdicts;
  std::optional<Diagnosis> diagnosis;
};
CatchFindings catch_findings(const Layout& layout, const std::vector<CatchReadings>& catches, const CatchSetup& setup,
                             const DiagnosisSetup& how);

}  // namespace libflow::python
