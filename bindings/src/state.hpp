// SPDX-License-Identifier: MIT
/// @file
/// Results as plain Python objects and back, for pickling: field by field, numbers to the last bit.
///
/// A result's struct lists its fields once (`State`); classes that pickle by themselves (layouts, parts, liquids) go as
/// they are.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <tuple>
#include <type_traits>
#include <vector>

#include <libflow/solve/solution.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/plumbing.hpp>

#include "solution.hpp"

namespace libflow::python {

/// Pointers to the fields of a struct that is pickled field by field.
template <class T>
struct State;
template <class T>
concept Listed = requires {
  State<T>::fields;
};

template <>
struct State<Caution> {
  static constexpr std::tuple fields{&Caution::code,  &Caution::subject, &Caution::text,
                                     &Caution::value, &Caution::limit,   &Caution::source};
};
template <>
struct State<PartResult> {
  static constexpr std::tuple fields{&PartResult::flow,     &PartResult::drop,         &PartResult::reynolds,
                                     &PartResult::velocity, &PartResult::inlet_static, &PartResult::outlet_static,
                                     &PartResult::regime,   &PartResult::valve};
};
template <>
struct State<PlaceResult> {
  static constexpr std::tuple fields{&PlaceResult::total_pressure, &PlaceResult::determined, &PlaceResult::lower,
                                     &PlaceResult::upper};
};
template <>
struct State<Solution> {
  static constexpr std::tuple fields{&Solution::status,        &Solution::message,         &Solution::parts,
                                     &Solution::places,        &Solution::iterations,      &Solution::factorisations,
                                     &Solution::mass_residual, &Solution::energy_residual, &Solution::cautions};
};
template <>
struct State<TeeAt> {
  static constexpr std::tuple fields{&TeeAt::tee,   &TeeAt::place,    &TeeAt::left,
                                     &TeeAt::right, &TeeAt::branches, &TeeAt::bar};
};
template <>
struct State<RowResult> {
  static constexpr std::tuple fields{&RowResult::row,           &RowResult::shut,
                                     &RowResult::flow,          &RowResult::width,
                                     &RowResult::speed,         &RowResult::rate,
                                     &RowResult::deviation,     &RowResult::hose_length,
                                     &RowResult::orifice_drop,  &RowResult::check_valve_drop,
                                     &RowResult::line_drop,     &RowResult::unused_fall,
                                     &RowResult::lift,          &RowResult::orifice_share,
                                     &RowResult::hose_reynolds, &RowResult::regime,
                                     &RowResult::valve};
};
template <>
struct State<Cause> {
  static constexpr std::tuple fields{&Cause::name, &Cause::deviation, &Cause::share};
};
template <>
struct State<ViscosityEnd> {
  static constexpr std::tuple fields{
      &ViscosityEnd::viscosity, &ViscosityEnd::upper,     &ViscosityEnd::solved,          &ViscosityEnd::even,
      &ViscosityEnd::cv,        &ViscosityEnd::worst_row, &ViscosityEnd::worst_deviation, &ViscosityEnd::pressure,
      &ViscosityEnd::stop};
};
template <>
struct State<AsBuilt> {
  static constexpr std::tuple fields{&AsBuilt::within, &AsBuilt::mean_cv};
};
template <>
struct State<Evenness> {
  static constexpr std::tuple fields{&Evenness::rows,
                                     &Evenness::tolerance,
                                     &Evenness::even,
                                     &Evenness::mean_rate,
                                     &Evenness::target_rate,
                                     &Evenness::total_flow,
                                     &Evenness::supply_pressure,
                                     &Evenness::cv,
                                     &Evenness::christiansen,
                                     &Evenness::low_quarter,
                                     &Evenness::highest_row,
                                     &Evenness::lowest_row,
                                     &Evenness::outside,
                                     &Evenness::causes,
                                     &Evenness::reference,
                                     &Evenness::cautions};
};
template <>
struct State<RowPlumbing> {
  static constexpr std::tuple fields{&RowPlumbing::row,         &RowPlumbing::x,        &RowPlumbing::width,
                                     &RowPlumbing::hose_length, &RowPlumbing::shut,     &RowPlumbing::airs,
                                     &RowPlumbing::last_parts,  &RowPlumbing::orifices, &RowPlumbing::check_valves,
                                     &RowPlumbing::hoses};
};
template <>
struct State<PlumbedTank> {
  static constexpr std::tuple fields{&PlumbedTank::place, &PlumbedTank::tank, &PlumbedTank::level};
};
template <>
struct State<DrivePlumbing> {
  static constexpr std::tuple fields{
      &DrivePlumbing::pump_inlet,    &DrivePlumbing::pump_outlet,   &DrivePlumbing::pump,  &DrivePlumbing::relief,
      &DrivePlumbing::bypass,        &DrivePlumbing::agitation,     &DrivePlumbing::meter, &DrivePlumbing::regulator,
      &DrivePlumbing::suction_hoses, &DrivePlumbing::delivery_hoses};
};

/// Places and parts of a network, and back. @throws InputError for a part that Python does not know
py::tuple network_state(const Network& network);
Network network_of(const py::tuple& state);

template <>
struct State<Plumbing> {
  static constexpr std::tuple fields{&Plumbing::network,    &Plumbing::supply,    &Plumbing::rows,
                                     &Plumbing::hose_total, &Plumbing::cut_hoses, &Plumbing::tees,
                                     &Plumbing::lossless,   &Plumbing::tanks,     &Plumbing::drive};
};

template <class T>
inline constexpr bool is_optional = false;
template <class T>
inline constexpr bool is_optional<std::optional<T>> = true;
template <class T>
inline constexpr bool is_vector = false;
template <class T>
inline constexpr bool is_vector<std::vector<T>> = true;

/// @throws InputError unless a pickle holds as many fields as this version of libflow has
void require_fields(const py::tuple& state, std::size_t count);

template <class T>
py::object to_state(const T& value) {
  if constexpr (std::is_enum_v<T>) {
    return py::int_(static_cast<int>(value));
  } else if constexpr (std::is_same_v<T, Network>) {
    return network_state(value);
  } else if constexpr (is_optional<T>) {
    return value ? to_state(*value) : py::none();
  } else if constexpr (is_vector<T>) {
    py::list list;
    for (const auto& item : value) list.append(to_state(item));
    return list;
  } else if constexpr (Listed<T>) {
    return std::apply([&](auto... field) { return py::make_tuple(to_state(value.*field)...); }, State<T>::fields);
  } else {
    return py::cast(value);
  }
}

template <class T>
T from_state(const py::handle& state) {
  if constexpr (std::is_enum_v<T>) {
    return static_cast<T>(state.cast<int>());
  } else if constexpr (std::is_same_v<T, Network>) {
    return network_of(state.cast<py::tuple>());
  } else if constexpr (is_optional<T>) {
    if (state.is_none()) return std::nullopt;
    return from_state<typename T::value_type>(state);
  } else if constexpr (is_vector<T>) {
    T list;
    for (const py::handle item : state.cast<py::list>()) list.push_back(from_state<typename T::value_type>(item));
    return list;
  } else if constexpr (Listed<T>) {
    const auto fields = state.cast<py::tuple>();
    require_fields(fields, std::tuple_size_v<std::remove_cvref_t<decltype(State<T>::fields)>>);
    T made{};
    std::size_t k = 0;
    std::apply(
        [&](auto... field) {
          ((made.*field = from_state<std::remove_cvref_t<decltype(made.*field)>>(fields[k++])), ...);
        },
        State<T>::fields);
    return made;
  } else {
    return state.cast<T>();
  }
}

}  // namespace libflow::python
