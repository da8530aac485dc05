// SPDX-License-Identifier: MIT
/// @file
/// The straight way from an even bar to the real one, and how the rows' deviations move along it.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <fmt/core.h>

#include <libflow/solve/corrected.hpp>
#include <libflow/solve/derivatives.hpp>
#include <libflow/solve/system.hpp>
#include <libflow/solve/tees.hpp>
#include <libflow/toolbar/build.hpp>
#include <libflow/toolbar/evaluate.hpp>
#include <libflow/toolbar/ground.hpp>

namespace libflow {

namespace attribution_detail {

/// One number that moves: of the network (see NetworkInput), or a row's width or ground speed.
struct Mover {
  enum class Kind { network, width, speed } kind = Kind::network;
  NetworkInput input{};
  std::size_t row = 0;  ///< of a width or speed
  double reference = 0, value = 0;
  std::string group;
  std::size_t column = 0;  ///< in the gradients of Derivatives
};

/// The straight way from the even bar to the real one.
class Way {
 public:
  Way(const Toolbar& toolbar, const Job& job, const LiquidState& liquid)
      : job_(job), liquid_(liquid), plumbing_(build_network(toolbar, job)), network_(plumbing_.network) {
    if (toolbar.drive) {
      throw InputError("attribution by input", "the layout has a drive; what drives the total does not tell rows apart",
                       "the toolbar without its drive at the same total");
    }
    const Plumbing even =
        build_network(toolbar, job, {.hoses = false, .slope = false, .orifices = false, .check_valves = false});
    const Plumbing direct = build_network(toolbar, job, {.manifold = false});
    bool same = even.network.part_count() == network_.part_count() && even.tees.size() == plumbing_.tees.size();
    for (std::size_t e = 0; same && e < network_.part_count(); ++e) {
      same = even.network.part(e).id == network_.part(e).id &&
             even.network.part(e).part.kind() == network_.part(e).part.kind();
    }
    if (!same) {
      throw InputError("attribution by input", "rows differ in which parts they have, not only in their numbers",
                       "rows with the same parts, or the attribution by causes");
    }
    find_groups(direct.network);
    for (std::size_t e = 0; e < network_.part_count(); ++e) compare_part(e, even.network.part(e).part);
    for (std::size_t i = 0; i < network_.place_count(); ++i) {
      add({NetworkInput::Kind::elevation, i}, even.network.place(i).elevation, network_.place(i).elevation,
          "slope and height");
    }
    for (std::size_t k = 0; k < plumbing_.tees.size(); ++k) compare_tee(k, even.tees[k].tee);
    for (std::size_t r = 0; r < plumbing_.rows.size(); ++r) {
      const RowPlumbing& row = plumbing_.rows[r];
      if (row.shut) continue;
      const std::string group = "ground speed and row width";
      if (row.width != si(toolbar.spacing)) {
        movers_.push_back({Mover::Kind::width, {}, r, si(toolbar.spacing), row.width, group});
      }
      if (row_speed(job, row.x) != si(job.speed)) {
        movers_.push_back({Mover::Kind::speed, {}, r, si(job.speed), row_speed(job, row.x), group});
      }
    }
    system_.emplace(network_, liquid_);
  }

  [[nodiscard]] const std::vector<Mover>& movers() const { return movers_; }
  [[nodiscard]] const Plumbing& plumbing() const { return plumbing_; }
  [[nodiscard]] const Network& network() const { return network_; }
  [[nodiscard]] std::size_t rows() const { return plumbing_.rows.size(); }
  int solves = 0;

  /// Deviations of the rows at a share of the way.
  Eigen::ArrayXd deviation(double share) {
    (void)solve_at(share);
    return rates_ / mean_ * counted_ - counted_;
  }
  /// Derivatives of the deviations along the way, by mover (columns) and row.
  Eigen::ArrayXXd slopes(double share) {
    const Solution s = solve_at(share);
    if (!derivatives_ || !plumbing_.tees.empty()) {  // at() takes the tees as they were
      derivatives_.emplace(network_, liquid_, s, AtCrack::shut, plumbing_.tees);
      for (Mover& m : movers_) {
        if (m.kind != Mover::Kind::network) continue;
        const auto& inputs = derivatives_->inputs();
        m.column = static_cast<std::size_t>(std::find(inputs.begin(), inputs.end(), m.input) - inputs.begin());
      }
    } else {
      derivatives_->at(liquid_, s);
    }
    const auto n = static_cast<Eigen::Index>(rows());
    Eigen::ArrayXXd by(n, static_cast<Eigen::Index>(movers_.size()));
    by.setZero();
    for (Eigen::Index r = 0; r < n; ++r) {
      const RowPlumbing& row = plumbing_.rows[static_cast<std::size_t>(r)];
      if (row.shut) continue;
      const std::vector<double> gradient = derivatives_->of_flow(outlets(row));
      for (std::size_t k = 0; k < movers_.size(); ++k) {
        const Mover& m = movers_[k];
        double d = 0.0;
        if (m.kind == Mover::Kind::network) {
          d = gradient[m.column] / (width_[r] * speed_[r]);
        } else if (m.row == static_cast<std::size_t>(r)) {
          d = -rates_[r] / (m.kind == Mover::Kind::width ? width_[r] : speed_[r]);
        }
        by(r, static_cast<Eigen::Index>(k)) = d * (m.value - m.reference);
      }
    }
    // deviation = rate / mean - 1
    const double count = counted_.sum();
    for (Eigen::Index k = 0; k < by.cols(); ++k) {
      const double mean_by = (by.col(k) * counted_).sum() / count;
      by.col(k) = counted_ * (by.col(k) - rates_ / mean_ * mean_by) / mean_;
    }
    return by;
  }

 private:
  FlowSum outlets(const RowPlumbing& row) const {
    FlowSum sum;
    for (std::size_t k = 0; k < row.airs.size(); ++k) {
      const auto last = row.last_parts[k];
      sum.emplace_back(last, network_.to(last) == row.airs[k] ? 1.0 : -1.0);
    }
    return sum;
  }

  void find_groups(const Network& direct) {
    group_.assign(network_.part_count(), "hose lengths");
    for (std::size_t e = 0; e < network_.part_count(); ++e) {
      bool in_both = false;
      for (std::size_t k = 0; k < direct.part_count() && !in_both; ++k)
        in_both = direct.part(k).id == network_.part(e).id;
      if (!in_both) group_[e] = "manifold";
    }
    for (const RowPlumbing& row : plumbing_.rows) {
      for (const auto e : row.orifices) group_[e] = "orifices";
      for (const auto e : row.check_valves) group_[e] = "check valves";
    }
  }

  void add(const NetworkInput& input, double reference, double value, const std::string& group) {
    if (reference != value) movers_.push_back({Mover::Kind::network, input, 0, reference, value, group});
  }

  void compare_part(std::size_t e, const Part& even) {
    Part real = with_coefficient(network_.part(e).part);
    const Part reference = with_coefficient(even);
    const bool line = group_[e] == "manifold";
    for (std::size_t k = 0; k < real.input_count(); ++k) {
      const auto value = real.input(k).value, other = reference.input(k).value;
      if (!value || !other) continue;
      const bool length = line && real.input(k).name == "length";
      const NetworkInput input{NetworkInput::Kind::part, e, k};
      if (*value != *other || length) network_.replace_part(e, real);
      add(input, length ? Hose::length_range.low : *other, *value, group_[e]);
    }
  }
  /// A tee's losses come with the bar; its sizes follow the row's hose.
  void compare_tee(std::size_t k, const Tee& even) {
    const TeeAt& at = plumbing_.tees[k];
    for (std::size_t i = 0; i < input_count<Tee>; ++i) {
      const double value = input_of(at.tee, i).value.value_or(0.0), other = input_of(even, i).value.value_or(0.0);
      const bool all_of_it = i == Tee::factor_input;
      add({NetworkInput::Kind::tee, at.place, i}, all_of_it ? 0.0 : other, value,
          all_of_it ? "manifold" : "hose lengths");
    }
  }
  void move_tee(const NetworkInput& input, double x) {
    for (TeeAt& at : plumbing_.tees) {
      if (at.place == input.index) set_input(at.tee, input.field, x);
    }
  }
  /// An orifice with its coefficient written out, so that it can be compared with another's.
  static Part with_coefficient(const Part& part) {
    const Orifice* orifice = part.as<Orifice>();
    if (orifice == nullptr || orifice->discharge_coefficient) return part;
    Orifice o = *orifice;
    o.discharge_coefficient =
        physics::hole_discharge_coefficient<double>(si(o.thickness) / si(o.bore), physics::sharp_discharge_coefficient);
    return o;
  }

  Solution solve_at(double share) {
    const auto n = static_cast<Eigen::Index>(rows());
    width_.resize(n);
    speed_.resize(n);
    for (Eigen::Index r = 0; r < n; ++r) {
      width_[r] = plumbing_.rows[static_cast<std::size_t>(r)].width;
      speed_[r] = row_speed(job_, plumbing_.rows[static_cast<std::size_t>(r)].x);
    }
    for (const Mover& m : movers_) {
      const double x = m.reference + share * (m.value - m.reference);
      if (m.kind == Mover::Kind::width) {
        width_[static_cast<Eigen::Index>(m.row)] = x;
      } else if (m.kind == Mover::Kind::speed) {
        speed_[static_cast<Eigen::Index>(m.row)] = x;
      } else if (m.input.kind == NetworkInput::Kind::elevation) {
        network_.set_elevation(m.input.index, from_si<Length>(x));
      } else if (m.input.kind == NetworkInput::Kind::tee) {
        move_tee(m.input, x);
      } else {
        const PlacedPart& placed = network_.part(m.input.index);
        network_.replace_part(m.input.index, placed.part.with_input(m.input.field, x, placed.id));
      }
    }
    Solution s = solved();
    ++solves;
    if (!s.usable()) throw Error("attribution by input: " + s.message);
    rates_ = Eigen::ArrayXd::Zero(n);
    counted_ = Eigen::ArrayXd::Zero(n);
    for (Eigen::Index r = 0; r < n; ++r) {
      const RowPlumbing& row = plumbing_.rows[static_cast<std::size_t>(r)];
      if (row.shut) continue;
      counted_[r] = 1.0;
      for (const auto& [e, sign] : outlets(row)) rates_[r] += sign * s.parts[e].flow / (width_[r] * speed_[r]);
    }
    mean_ = rates_.sum() / counted_.sum();
    if (!(mean_ > 0.0)) throw Error("attribution by input: nothing flows on the way from the even bar to this one");
    return s;
  }

  Solution solved() {
    if (plumbing_.tees.empty()) {
      system_->set_numbers(liquid_);
      return system_->solve();
    }
    CorrectedSolution corrected =
        solve_corrected(network_, liquid_, tee_corrections(network_, plumbing_.tees, liquid_.density));
    if (!corrected.usable()) corrected.solution.status = Status::iteration_limit;
    return std::move(corrected.solution);
  }

  Job job_;
  LiquidState liquid_;
  Plumbing plumbing_;  // its tees as they are on the way
  Network network_;    // as it is on the way
  std::vector<std::string> group_;
  std::vector<Mover> movers_;
  std::optional<System> system_;
  std::optional<Derivatives> derivatives_;
  Eigen::ArrayXd rates_, counted_, width_, speed_;
  double mean_ = 0;
};

}  // namespace attribution_detail

}  // namespace libflow
