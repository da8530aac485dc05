// SPDX-License-Identifier: MIT
/// @file
/// Scenarios in packs: from the columns of numbers to the laws of one pack, and from its flows to the rows.
#pragma once

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include <libflow/solve/pack_twin.hpp>
#include <libflow/solve/packed_newton.hpp>
#include <libflow/study/scenario_alone.hpp>

namespace libflow::scenarios_detail {

using Lanes = Twin;

/// What all packs of a layout share.
class PackPlan {
 public:
  explicit PackPlan(const Base& base)
      : base_(&base), laws_(lower(base)), core_(base.plumbing.network, laws_), nominal_(core_, laws_) {
    const Network& network = base.plumbing.network;
    gauge_ = core_.number(base.plumbing.supply);
    for (std::size_t i = 0; i < network.place_count(); ++i) {
      const auto number = core_.number(i);
      if (!number) continue;
      if (network.place(i).held()) held_.push_back({i, *number});
      if (network.place(i).inflow() != 0.0 && i != base.plumbing.supply) given_ += network.place(i).inflow();
    }
    for (const RowPlumbing& row : base.plumbing.rows) {
      rows_.emplace_back();
      if (row.shut) continue;
      rows_.back().per_speed = 1.0 / (row.width * row_speed(base.job, row.x) / si(base.job.speed));
      wanted_ += row.width * row_speed(base.job, row.x) / si(base.job.speed);
      for (std::size_t k = 0; k < row.airs.size(); ++k) {
        const auto last = row.last_parts[k];
        PackedSeat seat = core_.seats()[last];
        if (!seat.in_core()) continue;
        if (network.to(last) != row.airs[k]) seat.forward = !seat.forward;
        rows_.back().outlets.push_back(seat);
      }
    }
    find_start();
  }

  PackPlan(const PackPlan&) = delete;
  PackPlan& operator=(const PackPlan&) = delete;

  /// False for plumbing that takes more than one convex solve, or whose gauge the core does not have.
  [[nodiscard]] bool possible() const {
    if (!gauge_ || !base_->plumbing.tees.empty()) return false;
    const Network& network = base_->plumbing.network;
    for (std::size_t i = 0; i < network.part_count(); ++i) {
      const auto* outlet = network.part(i).part.as<RowOutlet>();
      if (network.part(i).part.contract() == Contract::outer_corrected) return false;
      if (outlet != nullptr && si(outlet->fall) > 0.0) return false;
    }
    return true;
  }

 private:
  friend class PackWorker;
  struct Held {
    Network::PlaceIndex place;
    std::size_t number;
  };
  struct Row {
    double per_speed = 0;             ///< 1 over width, its speed in speeds of the bar's centre [1/m]; 0: shut
    std::vector<PackedSeat> outlets;  ///< edge and way of each outlet
  };

  static std::vector<Law> lower(const Base& base) {
    std::vector<Law> laws;
    for (std::size_t i = 0; i < base.plumbing.network.part_count(); ++i) {
      laws.push_back(base.plumbing.network.part(i).part.law(base.liquid));
    }
    return laws;
  }

  /// Every pack starts from the answer of the layout itself, where that has one.
  void find_start();

  const Base* base_;
  std::vector<Law> laws_;
  PackedCore core_;
  PackedNewton<Lanes> nominal_;
  std::optional<std::size_t> gauge_;
  std::vector<Held> held_;
  std::vector<Row> rows_;
  double given_ = 0;   ///< pushed in at other places than the supply [m3/s]
  double wanted_ = 0;  ///< width of all open rows, each by its share of the speed [m]
};

/// What a pack gives for W scenarios.
struct PackAnswer {
  Lanes::Mask solved{false};
  std::vector<Lanes> flow;  ///< by row [m3/s]
  Lanes mean_rate, cv, lowest, highest, supply_pressure;
};

/// Solves packs, one after another: one worker for each thread.
class PackWorker {
 public:
  PackWorker(const PackPlan& plan, const Scenarios& s, const std::vector<Binding>& bound)
      : newton(plan.nominal_), plan_(&plan), s_(&s), moves_liquid_(moves_liquid(s)) {
    const Network& network = plan.base_->plumbing.network;
    std::vector<Network::PartIndex> parts = parts_of(bound);
    if (moves_liquid_) {
      parts.resize(network.part_count());
      for (std::size_t i = 0; i < parts.size(); ++i) parts[i] = i;
    }
    for (const auto part : parts) {
      if (!newton.laws.in_core(part)) continue;
      Moving m{.part = part};
      for (const Binding& b : bound) {
        if (b.part == part) m.columns.push_back(b);
      }
      find_kind(network.part(part).part, m);
      moving_.push_back(std::move(m));
    }
    answer.flow.resize(plan.rows_.size());
  }

  PackedNewton<Lanes> newton;
  PackAnswer answer;

  /// Scenarios first, first + 1, ... in the lanes; beyond the last one it is repeated.
  void solve(std::size_t first, const SolveOptions& options) {
    first_ = first;
    set_liquid();
    for (const Moving& m : moving_) set_part(m);
    newton.laws.sum();
    set_places();
    answer.solved = newton.solve(options);
    fill_answer();
  }

 private:
  enum class Kind { hose, hole, orifice, open_end, other };
  /// A part whose numbers differ between packs.
  struct Moving {
    Network::PartIndex part = 0;
    Kind kind = Kind::other;
    std::vector<Binding> columns{};
    const double* length = nullptr;
    const double* bore = nullptr;
    const double* roughness = nullptr;
    const double* crack = nullptr;
    const double* coefficient = nullptr;
    Hose hose{};
    physics::BareFriction<double> tube{};  ///< of the hose, in a liquid of density and viscosity 1
    physics::Hole<double> hole{};          ///< of a thin plate or a valve, in a liquid of density and viscosity 1
    double hole_bore = 0;                  ///< [m]
    Orifice orifice{};
    OpenEnd end{};
  };

  static void find_kind(const Part& part, Moving& m) {
    for (const Binding& b : m.columns) {
      switch (b.quantity) {
        case PartQuantity::length:
          m.length = b.values;
          break;
        case PartQuantity::bore:
          m.bore = b.values;
          break;
        case PartQuantity::roughness:
          m.roughness = b.values;
          break;
        case PartQuantity::crack:
          m.crack = b.values;
          break;
        case PartQuantity::discharge_coefficient:
          m.coefficient = b.values;
          break;
      }
    }
    if (const auto* hose = part.as<Hose>(); hose != nullptr && !hose->coil_diameter && !hose->entrance) {
      m.kind = Kind::hose;
      m.hose = *hose;
      // Where the layout's is smooth, a unit roughness of the bore stands for it.
      if (m.roughness != nullptr && si(m.hose.roughness) == 0.0) m.hose.roughness = m.hose.bore;
      m.tube = physics::bare_friction<double>(si(m.hose.length), si(m.hose.bore), si(m.hose.roughness), 1.0, 1.0);
    } else if (const auto* orifice = part.as<Orifice>()) {
      // The shape of a hole with length changes with its bore, and a coefficient enters its own way.
      const bool similar = m.coefficient == nullptr && (m.bore == nullptr || si(orifice->thickness) == 0.0);
      m.kind = similar ? Kind::hole : Kind::orifice;
      m.orifice = *orifice;
      m.hole = orifice->hole(1.0, 1.0);
      m.hole_bore = si(orifice->bore);
    } else if (const auto* valve = part.as<CheckValve>(); valve != nullptr && !valve->full_open) {
      m.kind = Kind::hole;
      m.hole = Orifice{.bore = valve->passage_bore}.hole(1.0, 1.0);
      m.hole_bore = si(valve->passage_bore);
    } else if (const auto* end = part.as<OpenEnd>()) {
      m.kind = Kind::open_end;
      m.end = *end;
    }
  }

  [[nodiscard]] std::size_t scenario(int lane) const {
    return std::min(first_ + static_cast<std::size_t>(lane), s_->count - 1);
  }
  [[nodiscard]] Lanes load(const double* column, double otherwise) const {
    if (column == nullptr) return Lanes(otherwise);
    if (first_ + Lanes::width <= s_->count) return Lanes::load(column + first_);
    Lanes x;
    for (int lane = 0; lane < Lanes::width; ++lane) x.set(lane, column[scenario(lane)]);
    return x;
  }
  [[nodiscard]] Lanes load(const Eigen::ArrayXd& column, double otherwise) const {
    return load(column.size() == 0 ? nullptr : column.data(), otherwise);
  }

  /// A column over a number, or that number over a column; 1 without one.
  [[nodiscard]] Lanes over(const double* column, double unit) const {
    return column == nullptr ? Lanes(1.0) : Lanes(load(column, 1.0) * Lanes(1.0 / unit));
  }
  [[nodiscard]] Lanes under(const double* column, double unit) const {
    return column == nullptr ? Lanes(1.0) : Lanes(Lanes(unit) / load(column, 1.0));
  }

  void set_liquid() {
    find_liquid();
    thinness_ = liquid_.density / liquid_.viscosity;
    thickness_ = liquid_.viscosity / thinness_;
  }
  void find_liquid() {
    const Base& base = *plan_->base_;
    liquid_ = {Lanes(base.liquid.density), Lanes(base.liquid.viscosity)};
    if (!moves_liquid_) return;
    if (s_->temperature.size() == 0) {
      liquid_ = {load(s_->density, base.liquid.density), load(s_->viscosity, base.liquid.viscosity)};
      return;
    }
    for (int lane = 0; lane < Lanes::width; ++lane) {
      const DensityViscosity one = liquid_numbers(*s_, scenario(lane), base.job.liquid, base.liquid);
      liquid_.density.set(lane, one.density);
      liquid_.viscosity.set(lane, one.viscosity);
    }
  }

  void set_part(const Moving& m) {
    auto& laws = newton.laws;
    switch (m.kind) {
      case Kind::hose:
        laws.friction(m.part) =
            physics::similar_friction<Lanes>(m.tube, over(m.length, si(m.hose.length)), under(m.bore, si(m.hose.bore)),
                                             over(m.roughness, si(m.hose.roughness)), thinness_, thickness_);
        return;
      case Kind::hole:
        laws.hole(m.part) = physics::similar_hole<Lanes>(m.hole, under(m.bore, m.hole_bore), liquid_.density,
                                                         liquid_.viscosity, thinness_);
        if (m.crack != nullptr) laws.constants(m.part).threshold = Lanes(load(m.crack, 0.0));
        return;
      case Kind::orifice: {
        std::optional<Lanes> c;
        if (m.coefficient != nullptr || m.orifice.discharge_coefficient) {
          c = load(m.coefficient, m.orifice.discharge_coefficient.value_or(0.0));
        }
        laws.hole(m.part) =
            Orifice::hole_of<Lanes>(load(m.bore, si(m.orifice.bore)), Lanes(si(m.orifice.thickness)), c, liquid_);
        return;
      }
      case Kind::open_end: {
        const BasicLaw<Lanes> law = m.end.law_on<Lanes>({load(m.bore, si(m.end.bore))}, liquid_);
        laws.constants(m.part).linear = law.linear;
        laws.constants(m.part).quadratic = law.quadratic;
        return;
      }
      case Kind::other:
        break;
    }
    const PlacedPart& placed = plan_->base_->plumbing.network.part(m.part);
    LiquidState liquid = plan_->base_->liquid;
    for (int lane = 0; lane < Lanes::width; ++lane) {
      liquid.density = liquid_.density[lane];
      liquid.viscosity = liquid_.viscosity[lane];
      if (s_->temperature.size() != 0) liquid.temperature = s_->temperature[static_cast<Eigen::Index>(scenario(lane))];
      const Part part = m.columns.empty()
                            ? placed.part
                            : part_of_scenario(plan_->base_->plumbing.network, m.part, m.columns, scenario(lane));
      laws.set(m.part, lane, part.law(liquid));
    }
  }

  /// Held potentials, counted from the datum's, and the given flows.
  void set_places() {
    const Base& base = *plan_->base_;
    const Network& network = base.plumbing.network;
    const bool slopes = s_->side_slope.size() != 0 || s_->fore_aft_slope.size() != 0;
    Lanes side(std::sin(base.elevations.side_slope)), fore_aft(std::sin(base.elevations.fore_aft_slope));
    for (int lane = 0; slopes && lane < Lanes::width; ++lane) {
      side.set(lane, std::sin(value_or(s_->side_slope, scenario(lane), base.elevations.side_slope)));
      fore_aft.set(lane, std::sin(value_or(s_->fore_aft_slope, scenario(lane), base.elevations.fore_aft_slope)));
    }
    const auto elevation = [&](std::size_t i) {
      if (!slopes) return Lanes(network.place(i).elevation);
      const Elevations& e = base.elevations;
      return Lanes(e.level[i]) + side * Lanes(e.side[i]) + fore_aft * Lanes(e.fore_aft[i]);
    };
    const auto pressure = [&](std::size_t i) {
      return i == base.plumbing.supply ? load(s_->pressure, network.place(i).pressure)
                                       : Lanes(network.place(i).pressure);
    };
    const Lanes weight = liquid_.density * Lanes(standard_gravity);
    const Lanes zero_pressure = pressure(plan_->core_.datum()), zero_elevation = elevation(plan_->core_.datum());
    for (const auto& held : plan_->held_) {
      newton.potential[held.number] =
          (pressure(held.place) - zero_pressure) + weight * (elevation(held.place) - zero_elevation);
    }
    gauge_lift_ = weight * (elevation(base.plumbing.supply) - zero_elevation) - zero_pressure;
    speed_ = load(s_->speed, si(base.job.speed));
    if (base.fed() && (s_->speed.size() != 0 || s_->rate.size() != 0)) {
      newton.inflow[*plan_->gauge_] =
          load(s_->rate, si(base.job.rate)) * speed_ * Lanes(plan_->wanted_) - Lanes(plan_->given_);
    }
  }

  void fill_answer() {
    Lanes sum(0.0), squares(0.0), low(HUGE_VAL), high(-HUGE_VAL);
    double rows = 0.0;
    const Lanes per_speed = Lanes(1.0) / speed_;
    for (std::size_t r = 0; r < plan_->rows_.size(); ++r) {
      const auto& row = plan_->rows_[r];
      Lanes q(0.0);
      for (const PackedSeat& seat : row.outlets) {
        if (seat.forward) {
          q += newton.flow[seat.edge];
        } else {
          q -= newton.flow[seat.edge];
        }
      }
      answer.flow[r] = q;
      if (row.per_speed == 0.0) continue;
      const Lanes rate = q * per_speed * Lanes(row.per_speed);
      rows += 1.0;
      sum += rate;
      low = -max(-low, -rate);
      high = max(high, rate);
    }
    const Lanes mean = sum / Lanes(std::max(rows, 1.0));
    for (std::size_t r = 0; r < plan_->rows_.size(); ++r) {
      if (plan_->rows_[r].per_speed == 0.0) continue;
      const Lanes off = answer.flow[r] * per_speed * Lanes(plan_->rows_[r].per_speed) - mean;
      squares += off * off;
    }
    const Lanes::Mask some = mean > Lanes(0.0);
    answer.mean_rate = mean;
    answer.cv = rows < 2.0 ? Lanes(0.0) : some.select(sqrt(squares / Lanes(rows - 1.0)) / mean, Lanes(0.0));
    answer.lowest = some.select(low / mean - Lanes(1.0), Lanes(0.0));
    answer.highest = some.select(high / mean - Lanes(1.0), Lanes(0.0));
    answer.supply_pressure = newton.potential[*plan_->gauge_] - gauge_lift_;
  }

  const PackPlan* plan_;
  const Scenarios* s_;
  bool moves_liquid_;
  std::vector<Moving> moving_;
  std::size_t first_ = 0;
  LiquidNumbers<Lanes> liquid_{};
  Lanes thinness_, thickness_;
  Lanes gauge_lift_, speed_;
};

inline void PackPlan::find_start() {
  if (!possible()) return;
  for (std::size_t i = 0; i < base_->plumbing.network.place_count(); ++i) {
    const auto number = core_.number(i);
    if (number && !base_->plumbing.network.place(i).held()) {
      nominal_.inflow[*number] = Lanes(base_->plumbing.network.place(i).inflow());
    }
  }
  const Scenarios as_it_is{.count = 1};
  PackWorker worker(*this, as_it_is, {});
  worker.solve(0, {});
  if (!worker.answer.solved[0]) return;
  nominal_ = worker.newton;
  nominal_.start_from(0);
}

}  // namespace libflow::scenarios_detail
