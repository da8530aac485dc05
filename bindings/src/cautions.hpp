// SPDX-License-Identifier: MIT
/// @file
/// Cautions as Python objects.
#pragma once

#include <libflow/core/caution.hpp>

#include "convert.hpp"

namespace libflow::python {

inline py::list cautions_to_python(const Cautions& cautions) {
  return Convert<Cautions>::to(cautions).cast<py::list>();
}

}  // namespace libflow::python
