// SPDX-License-Identifier: MIT
#include <libflow/toolbar/build.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>
#include <libflow/parts.hpp>
#include <libflow/parts/words.hpp>
#include <libflow/physics/tee.hpp>
#include <libflow/toolbar/build_rows.hpp>
#include <libflow/toolbar/drive_network.hpp>
#include <libflow/toolbar/ground.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

namespace build_detail {

/// Adds places and parts one after another.
class Builder {
 public:
  Builder(const Toolbar& toolbar, const Job& job, const Causes& causes) : t_(toolbar), job_(job), causes_(causes) {
    check(toolbar);
    rows_ = make_rows(toolbar);
    check_turn();
    level_rows(rows_, toolbar, causes);
    side_ = causes.slope ? std::sin(si(t_.side_slope)) : 0.0;
    outlet_drop_ = causes.slope ? si(t_.outlets_behind) * std::sin(si(t_.fore_aft_slope)) : 0.0;
  }

  Plumbing build() {
    add_supply();
    for (std::size_t m = 0; m < t_.manifolds.size(); ++m) add_manifold(m);
    for (const Row& row : rows_) add_row(row);
    for (TeeAt& tee : feed_tees_) out_.tees.push_back(std::move(tee));
    if (driven()) {
      add_drive(out_, *t_.drive, job_.liquid.at(job_.temperature),
                {.side = side_,
                 .fore_aft = std::sin(si(t_.fore_aft_slope)),
                 .speed = job_.speed,
                 .roughness = t_.hose_roughness},
                out_.supply);
    } else if (!job_.pressure) {
      feed_wanted_flow(out_, out_.supply, job_);
    }
    return std::move(out_);
  }

 private:
  using PlaceIndex = Network::PlaceIndex;

  void check_turn() const {
    if (!job_.turn_radius) return;
    const double half = rows_.back().x;
    if (!std::isfinite(si(*job_.turn_radius)) || std::abs(si(*job_.turn_radius)) <= half) {
      throw InputError(
          "job, turn radius", parts_detail::length_words(si(*job_.turn_radius)),
          fmt::format("more than half the bar, {}, so that every row moves forward", parts_detail::length_words(half)));
    }
  }

  /// The drive is part of the network where its control is held; otherwise an ideal supply gives the wanted total.
  [[nodiscard]] bool driven() const { return t_.drive && t_.drive->setting; }

  static Length metres(double v) { return from_si<Length>(v); }
  [[nodiscard]] double bar_elevation(double x, std::size_t m) const {
    return x * side_ + (causes_.slope ? si(t_.manifolds[m].height) : 0.0);
  }

  [[nodiscard]] std::size_t feed_points() const {
    std::size_t count = 0;
    for (const Manifold& bar : t_.manifolds) count += bar.feed == ManifoldFeed::both_ends ? 2 : 1;
    return count;
  }

  void add_supply() {
    const Length z = metres(bar_elevation(0.0, 0));
    if (driven()) {
      if (job_.pressure) {
        throw InputError("job, pressure", "the supply is held at a pressure and the drive's control at a setting",
                         "one of the two");
      }
      out_.supply = out_.network.add_place("supply", z);
    } else {
      out_.supply = job_.pressure ? out_.network.add_supply("supply", *job_.pressure, z)
                                  : out_.network.add_fed("supply", from_si<Flow>(0.0), z);
    }
    ports_.assign(rows_.size(), out_.supply);
    ports_with_losses_.assign(rows_.size(), std::nullopt);
  }

  /// A length of bar or feed hose; nothing at all where the even reference has no loss.
  void add_line(const std::string& id, PlaceIndex from, PlaceIndex to, double length, Length bore,
                std::optional<Pressure> rating) {
    const Hose hose{.length = metres(length), .bore = bore, .roughness = t_.hose_roughness, .rating = rating};
    out_.network.add_part(id, from, to, Part(hose, id));
  }

  void add_manifold(std::size_t m) {
    if (!causes_.manifold) return;  // every port is the supply itself
    const Manifold& bar = t_.manifolds[m];
    const std::string name = manifold_name(t_, m);
    std::vector<std::size_t> own;  // its rows
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (rows_[i].manifold == m) own.push_back(i);
    }
    const double step = si(bar.port_spacing);
    const bool direct = si(bar.feed_length) == 0.0;
    if (direct && feed_points() > 1) {
      throw InputError(name + ", feed length", "0 m with more than one feed point in the layout",
                       "more than 0 m for each manifold, so that the split between them is known");
    }
    // Bar points in order along the bar: ports, with an inlet before, after or amid them.
    struct Point {
      PlaceIndex place;
      double x;
      std::optional<std::size_t> row = std::nullopt;               // whose port it is
      std::optional<Network::PartIndex> feed_hose = std::nullopt;  // that ends there
      bool inlet = false;
    };
    std::vector<Point> points;
    const auto inlet = [&](const std::string& id, double x) {
      Point point{.place = out_.supply, .x = x, .inlet = true};
      if (!direct) {
        point.place = out_.network.add_place(id, metres(bar_elevation(x, m)));
        add_line(id + " feed hose", out_.supply, point.place, si(bar.feed_length), bar.feed_bore, t_.hose_rating);
        out_.hose_total += si(bar.feed_length);
        point.feed_hose = out_.network.part_count() - 1;
        out_.cut_hoses.push_back(*point.feed_hose);
      }
      points.push_back(point);
    };
    const std::size_t count = own.size();
    if (bar.feed == ManifoldFeed::left || bar.feed == ManifoldFeed::both_ends) {
      inlet(name + (bar.feed == ManifoldFeed::both_ends ? " left inlet" : " inlet"),
            rows_[own.front()].port_x - 0.5 * step);
    }
    for (std::size_t k = 0; k < count; ++k) {
      const Row& row = rows_[own[k]];
      const bool middle_port = bar.feed == ManifoldFeed::middle && count % 2 == 1 && k == count / 2;
      if (bar.feed == ManifoldFeed::middle && count % 2 == 0 && k == count / 2) {
        inlet(name + " inlet", row.port_x - 0.5 * step);
      }
      if (middle_port) {
        inlet(name + " inlet", row.port_x);
        points.back().row = own[k];
        ports_[own[k]] = points.back().place;
        continue;
      }
      ports_[own[k]] =
          out_.network.add_place(fmt::format("{} port {}", name, row.number), metres(bar_elevation(row.port_x, m)));
      points.push_back({ports_[own[k]], row.port_x, own[k]});
    }
    if (bar.feed == ManifoldFeed::right || bar.feed == ManifoldFeed::both_ends) {
      inlet(name + (bar.feed == ManifoldFeed::both_ends ? " right inlet" : " inlet"),
            rows_[own.back()].port_x + 0.5 * step);
    }
    for (std::size_t k = 0; k + 1 < points.size(); ++k) {
      add_line(fmt::format("{} bar {}", name, k + 1), points[k].place, points[k + 1].place,
               points[k + 1].x - points[k].x, bar.bore, std::nullopt);
    }
    if (!bar.junction_losses) return;
    const std::size_t first_bar = out_.network.part_count() - (points.size() - 1);
    for (std::size_t k = 0; k < points.size(); ++k) {
      const Point& point = points[k];
      if (points.size() == 1) break;  // a hose that becomes a row: nothing divides there
      TeeAt tee{.tee = {.run_bore = bar.bore}, .place = point.place, .bar = name};
      if (k > 0) tee.left = first_bar + k - 1;
      if (k + 1 < points.size()) tee.right = first_bar + k;
      const bool row_there = point.row && !rows_[*point.row].shut;
      if (point.inlet && tee.left && tee.right) {
        // The feed comes in between both arms: a parting tee, but a cross where a row leaves too.
        if (!row_there && point.feed_hose && tee_takes(bar.feed_bore, bar.bore)) {
          tee.tee.branch_bore = bar.feed_bore;
          tee.branches = {*point.feed_hose};
          feed_tees_.push_back(std::move(tee));
        } else if (row_there || point.feed_hose) {
          out_.lossless.push_back(point.place);
        }
        if (row_there) (void)branch_bore(rows_[*point.row], bar, name);  // the same hoses are refused as elsewhere
      } else if (row_there) {
        tee.tee.branch_bore = branch_bore(rows_[*point.row], bar, name);
        ports_with_losses_[*point.row] = std::move(tee);
      }
    }
  }

  [[nodiscard]] static bool tee_takes(Length branch, Length run) {
    return branch <= run && si(branch) >= std::sqrt(physics::tee_area_ratio.low) * si(run);
  }
  /// Of a row's port: one tube with the area of all that leaves it.
  [[nodiscard]] Length branch_bore(const Row& row, const Manifold& bar, const std::string& name) const {
    const int hoses = t_.metering == MeteringPlace::manifold ? t_.outlets_per_row : 1;
    const Length bore = metres(row.hose_bore * std::sqrt(static_cast<double>(hoses)));
    if (tee_takes(bore, bar.bore)) return bore;
    if (bore > bar.bore) {
      throw InputError(fmt::format("{}, junction losses", name),
                       hoses == 1 ? fmt::format("row {}'s hose is wider than the bar", row.number)
                                  : fmt::format("row {}'s hoses together are wider than the bar", row.number),
                       "a bar at least as wide as what it feeds at one port");
    }
    throw InputError(fmt::format("{}, junction losses", name),
                     fmt::format("row {}'s hose is narrower than a tenth of the bar: no published loss", row.number),
                     "no junction losses (a bar so wide does not need them), or a bar at most ten times as wide");
  }

  void add_row(const Row& row) {
    RowPlumbing r;
    r.row = row.number;
    r.x = row.x;
    r.width = row.width;
    r.shut = row.shut;
    r.hose_length = row.hose_length;
    const Network::PartIndex first_part = out_.network.part_count();
    if (!row.shut) {
      const PlaceIndex port = ports_[static_cast<std::size_t>(row.number - 1)];
      if (t_.metering == MeteringPlace::outlet) {
        const PlaceIndex end = add_hose(r, row, port, fmt::format("row {}", row.number));
        for (int k = 0; k < t_.outlets_per_row; ++k) {
          const std::string name = outlet_name(row, k);
          const PlaceIndex air = add_air(r, row, name);
          if (row.orifice && si(t_.outlet_bore) == 0.0) {  // the orifice's jet is the outlet
            add_metering(r, row, end, name, end_elevation(row), air);
            r.last_parts.push_back(r.orifices.back());
          } else {
            add_open_end(r, row, add_metering(r, row, end, name, end_elevation(row)), air, name);
          }
        }
      } else {
        const double z = bar_elevation(row.port_x, row.manifold);
        for (int k = 0; k < t_.outlets_per_row; ++k) {
          const std::string name = outlet_name(row, k);
          const PlaceIndex metered = add_metering(r, row, port, name, z);
          add_open_end(r, row, add_hose(r, row, metered, name), add_air(r, row, name), name);
        }
      }
    }
    if (auto& port = ports_with_losses_[static_cast<std::size_t>(row.number - 1)]) {
      for (Network::PartIndex i = first_part; i < out_.network.part_count(); ++i) {
        if (out_.network.from(i) == port->place) port->branches.push_back(i);
      }
      out_.tees.push_back(std::move(*port));
    }
    out_.rows.push_back(std::move(r));
  }

  [[nodiscard]] std::string outlet_name(const Row& row, int k) const {
    if (t_.outlets_per_row == 1) return fmt::format("row {}", row.number);
    return fmt::format("row {}{}", row.number, k == 0 ? 'a' : 'b');
  }
  [[nodiscard]] double end_elevation(const Row& row) const { return row.x * side_ - outlet_drop_ + row.height; }

  PlaceIndex add_hose(RowPlumbing& r, const Row& row, PlaceIndex from, const std::string& name) {
    const PlaceIndex end = out_.network.add_place(name + " hose end", metres(end_elevation(row)));
    const Hose hose{.length = metres(row.hose_length),
                    .bore = metres(row.hose_bore),
                    .roughness = t_.hose_roughness,
                    .rating = t_.hose_rating};
    r.hoses.push_back(out_.network.add_part(name + " hose", from, end, Part(hose, name + " hose")));
    out_.hose_total += row.hose_length;
    out_.cut_hoses.push_back(r.hoses.back());
    return end;
  }

  /// Check valve and orifice, as far as the row has them.
  /// @param z    elevation of the places between and behind them
  /// @param end  where the orifice leads; empty: to a new place
  /// @return the place behind them
  PlaceIndex add_metering(RowPlumbing& r, const Row& row, PlaceIndex from, const std::string& name, double z,
                          std::optional<PlaceIndex> end = std::nullopt) {
    PlaceIndex at = from;
    if (row.check_valve) {
      const std::string id = name + " check valve";
      const PlaceIndex next = out_.network.add_place(name + " behind check valve", metres(z));
      r.check_valves.push_back(
          out_.network.add_part(id, at, next, Part(make_check_valve(*row.check_valve, row.crack, id), id)));
      at = next;
    }
    if (row.orifice) {
      const std::string id = name + " orifice";
      const PlaceIndex next = end ? *end : out_.network.add_place(name + " behind orifice", metres(z));
      r.orifices.push_back(out_.network.add_part(id, at, next, Part(make_orifice(*row.orifice, id), id)));
      at = next;
    }
    return at;
  }

  PlaceIndex add_air(RowPlumbing& r, const Row& row, const std::string& name) {
    r.airs.push_back(out_.network.add_air(name, metres(end_elevation(row) - si(t_.outlet_fall))));
    return r.airs.back();
  }

  /// The tube that ends in the air: of the toolbar's outlet bore, or the hose itself.
  void add_open_end(RowPlumbing& r, const Row& row, PlaceIndex from, PlaceIndex air, const std::string& name) {
    const std::string id = name + " outlet";
    const Length bore = si(t_.outlet_bore) > 0.0 ? t_.outlet_bore : metres(row.hose_bore);
    const Length fall = t_.outlet_fall;
    const Part end = si(fall) == 0.0    ? Part(OpenEnd{.bore = bore}, id)
                     : t_.outlet_vented ? Part(VentedTube{.bore = bore, .fall = fall}, id)
                                        : Part(RowOutlet{.bore = bore, .fall = fall}, id);
    r.last_parts.push_back(out_.network.add_part(id, from, air, end));
  }

  const Toolbar& t_;
  const Job& job_;
  Causes causes_;
  std::vector<Row> rows_;
  double side_ = 0, outlet_drop_ = 0;
  std::vector<PlaceIndex> ports_;
  std::vector<std::optional<TeeAt>> ports_with_losses_;  // by row
  std::vector<TeeAt> feed_tees_;
  Plumbing out_;
};

}  // namespace build_detail

void check(const Job& job) {
  require_in("job, rate", si(job.rate), layout_limits::rate, "m3/m2");
  require_in("job, speed", si(job.speed), layout_limits::speed, "m/s");
  require_in("job, tolerance", job.tolerance, layout_limits::tolerance, "");
  if (job.pressure) require_in("job, pressure", si(*job.pressure), layout_limits::pressure, "Pa");
  if (job.pump_limit) require_in("job, pump limit", si(*job.pump_limit), layout_limits::pressure, "Pa");
}

Plumbing build_network(const Toolbar& toolbar, const Job& job, const Causes& causes) {
  check(job);
  return build_detail::Builder(toolbar, job, causes).build();
}

}  // namespace libflow
