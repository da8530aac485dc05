// SPDX-License-Identifier: MIT
/// @file
/// What a person says about a toolbar, as Python objects.
#pragma once

#include <libflow/toolbar/layout.hpp>

#include "parts.hpp"
#include "record.hpp"

namespace libflow::python {

LIBFLOW_NAMES(UnitSystem, "us", "metric");
LIBFLOW_NAMES(MeteringPlace, "outlet", "manifold");
LIBFLOW_NAMES(ManifoldFeed, "middle", "left", "right", "both_ends");
LIBFLOW_NAMES(ToleranceOf, "orifice_bore", "hose_length", "hose_bore", "crack", "viscosity", "density", "temperature",
              "side_slope", "fore_aft_slope", "speed", "rate", "pressure");
LIBFLOW_NAMES(Distribution::Kind, "normal", "uniform", "triangular", "listed");
LIBFLOW_NAMES(DriveControl, "pump_speed", "regulator", "relief", "bypass", "throttle", "pulse");

/// Hoses as short as their run allows.
struct Shortest {
  Length extra = from_si<Length>(0.0);
};

/// An orifice by its bore or by its rating.
template <>
struct Convert<OrificeChoice> {
  static OrificeChoice from(py::handle object, std::string_view where);
  static py::object to(const OrificeChoice& value);
  static std::string annotation() { return "libflow._libflow.OrificeByBore | libflow._libflow.OrificeByRating"; }
};
/// One length, a list of lengths, or Shortest.
template <>
struct Convert<HoseSchedule> {
  static HoseSchedule from(py::handle object, std::string_view where);
  static py::object to(const HoseSchedule& value);
  static std::string annotation() {
    return "float | str | collections.abc.Sequence[float | str] | libflow._libflow.Shortest";
  }
};
template <>
struct Convert<PumpChoice> {
  static PumpChoice from(py::handle object, std::string_view where);
  static py::object to(const PumpChoice& value);
  static std::string annotation() {
    return "libflow._libflow.CentrifugalPump | libflow._libflow.PumpCurve | libflow._libflow.PositivePump | "
           "libflow._libflow.GroundDrivenPump";
  }
};
/// A Liquid, or the name of a built-in one.
template <>
struct Convert<Liquid> {
  static Liquid from(py::handle object, std::string_view where);
  static py::object to(const Liquid& value) { return py::cast(value); }
  static std::string annotation() { return "libflow._libflow.Liquid | str"; }
};

}  // namespace libflow::python
