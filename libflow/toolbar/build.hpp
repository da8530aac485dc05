// SPDX-License-Identifier: MIT
/// @file
/// The network of a toolbar: from rows, manifolds and hoses to places and parts.
#pragma once

#include <libflow/parts.hpp>
#include <libflow/toolbar/build_rows.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// Checks a job. @throws InputError
void check(const Job& job);

/// The network of a toolbar for a job. A drive is part of it where its control is held at a setting (Drive::setting);
/// otherwise the supply is ideal: held at job.pressure, or giving the wanted total.
/// @throws InputError naming the field
[[nodiscard]] Plumbing build_network(const Toolbar& toolbar, const Job& job, const Causes& causes = {});

}  // namespace libflow
