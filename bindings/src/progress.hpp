// SPDX-License-Identifier: MIT
/// @file
/// A Python callable that is told how far a long study is.
#pragma once

#include <libflow/core/progress.hpp>

#include "convert.hpp"

namespace libflow::python {

/// Calls `callable(done, total)` with the interpreter locked; a result that is False stops the study, None goes on.
/// With or without one, Ctrl-C stops. What the callable raises goes through.
inline Progress progress_from(const py::object& callable) {
  return [callable](std::size_t done, std::size_t total) {
    const py::gil_scoped_acquire lock;
    if (PyErr_CheckSignals() != 0) throw py::error_already_set();
    if (callable.is_none()) return true;
    const py::object answer = callable(done, total);
    return !answer.is(py::bool_(false));
  };
}

}  // namespace libflow::python
