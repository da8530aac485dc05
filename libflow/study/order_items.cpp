// SPDX-License-Identifier: MIT
#include <libflow/study/order_items.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/parts.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

std::string order_size_text(const OrderSize& size, UnitSystem u) {
  if (size.name == order_valve_size && u == UnitSystem::us) {
    // The trade's Cv: water at 1 psi.
    const double at_1_psi = size.value * std::sqrt(si(units::psi) / si(units::bar));
    return "flow at 1 psi " + format(from_si<Flow>(at_1_psi), u);
  }
  const std::string value = [&] {
    if (size.bore) return format_bore(from_si<Length>(size.value), u);
    switch (size.kind) {
      case Kind::length:
        return format(from_si<Length>(size.value), u);
      case Kind::pressure:
        return format(from_si<Pressure>(size.value), u);
      case Kind::flow:
        return format(from_si<Flow>(size.value), u);
      case Kind::volume:
        // A pump's displacement is small.
        return size.value < 1e-3 ? fmt::format("{:.4g} mL", 1e6 * size.value) : format(from_si<Volume>(size.value), u);
      default:
        return fmt::format("{:g}", size.value);
    }
  }();
  return (size.count > 0 ? fmt::format("{} ", size.count) : std::string()) + size.name + " " + value +
         (size.assumed ? " (assumed)" : "");
}

namespace order_detail {

OrderSize bore(Length value, std::string name) { return {std::move(name), Kind::length, si(value), true}; }

OrderSize pressure(Pressure value, std::string name) { return {std::move(name), Kind::pressure, si(value)}; }

static OrderSize flow(Flow value, std::string name) { return {std::move(name), Kind::flow, si(value)}; }

OrderSize volume(Volume value, std::string name) { return {std::move(name), Kind::volume, si(value)}; }

/// A fitting's name where its constants are those of one of the named ones; else empty.
static std::string fitting_name(const Fitting& f) {
  using Make = Fitting (*)(Length, LossMethod);
  static constexpr std::pair<const char*, Make> named[] = {{"elbow", &Fitting::elbow_90},
                                                           {"45 degree elbow", &Fitting::elbow_45},
                                                           {"tee (straight through)", &Fitting::tee_run},
                                                           {"tee (round the corner)", &Fitting::tee_branch},
                                                           {"ball valve", &Fitting::ball_valve}};
  for (const auto& [name, make] : named) {
    for (const LossMethod method : {LossMethod::two_constant, LossMethod::three_constant}) {
      const Fitting other = make(f.bore, method);
      if (other.k1 == f.k1 && std::abs(other.k_inf - f.k_inf) <= 1e-12 * f.k_inf) return name;
    }
  }
  return {};
}

/// A fitting without a name is known by its loss: two of them with other constants are two things to buy.
static OrderItem fitting_item(const Fitting& f) {
  const std::string name = fitting_name(f);
  return {.what = name.empty() ? std::string(Fitting::kind) : name,
          .sizes = {bore(f.bore)},
          .note = name.empty() ? fmt::format("K = {:.4g}/Re + {:.4g}", f.k1, f.k_inf) : std::string()};
}

static OrderItem orifice_item(const Orifice& o) {
  OrderItem item{.what = si(o.thickness) > 0.0 ? "orifice, long hole" : "orifice", .sizes = {bore(o.bore)}};
  if (si(o.thickness) > 0.0) item.sizes.push_back(bore(o.thickness, "hole length"));
  return item;
}

std::optional<OrderItem> item_of(const Part& part) {
  if (part.as<Hose>() != nullptr || part.as<SuspensionHose>() != nullptr || part.as<OpenEnd>() != nullptr) {
    return std::nullopt;
  }
  if (const auto* o = part.as<Orifice>()) return orifice_item(*o);
  if (const auto* o = part.as<OrificePair>()) {
    return OrderItem{.what = "orifice pair",
                     .sizes = {bore(o->first.bore, "first bore"), bore(o->second.bore, "second bore")}};
  }
  if (const auto* v = part.as<CheckValve>()) {
    return OrderItem{.what = "check valve", .sizes = {pressure(v->crack, "crack pressure")}};
  }
  if (const auto* v = part.as<ReliefValve>()) {
    return OrderItem{.what = "relief valve", .sizes = {pressure(v->set, "set pressure")}};
  }
  if (const auto* v = part.as<PressureRegulator>()) {
    return OrderItem{.what = "pressure regulator", .sizes = {pressure(v->set, "set pressure")}};
  }
  if (const auto* v = part.as<Valve>()) {
    return OrderItem{.what = "valve", .sizes = {bore(v->bore), flow(v->kv, std::string(order_valve_size))}};
  }
  if (const auto* v = part.as<PulsedValve>()) {
    OrderItem item{.what = "pulsed valve", .sizes = {bore(v->passage_bore, "passage")}};
    if (v->outlet_bore) item.sizes.push_back(bore(*v->outlet_bore, "orifice in it"));
    return item;
  }
  if (const auto* f = part.as<Fitting>()) return fitting_item(*f);
  if (const auto* r = part.as<Reducer>()) {
    return OrderItem{.what = "reducer", .sizes = {bore(r->from_bore, "from"), bore(r->to_bore, "to")}};
  }
  if (const auto* b = part.as<Barb>()) {
    return OrderItem{.what = "hose barb", .sizes = {bore(b->bore), bore(b->hose_bore, "hose")}};
  }
  if (const auto* s = part.as<Strainer>()) {
    return OrderItem{.what = "strainer", .sizes = {bore(s->bore, "ports"), bore(s->opening, "mesh opening")}};
  }
  if (const auto* m = part.as<FlowMeter>()) {
    return OrderItem{.what = "flow meter", .sizes = {bore(m->bore, "ports"), flow(m->most, "to")}};
  }
  if (const auto* o = part.as<RowOutlet>()) {
    return OrderItem{.what = o->count == 2 ? "row outlet, two tubes" : "row outlet", .sizes = {bore(o->bore)}};
  }
  if (const auto* p = part.as<CentrifugalPump>()) {
    return OrderItem{.what = "centrifugal pump",
                     .sizes = {pressure(p->shutoff, "at no flow"), flow(p->free_flow, "free flow")}};
  }
  if (const auto* p = part.as<PumpCurve>()) {
    return OrderItem{
        .what = "pump",
        .sizes = {pressure(p->points.front().gain, "at no flow"), flow(p->points.back().flow, "curve to")}};
  }
  if (const auto* p = part.as<PositivePump>()) {
    return OrderItem{.what = "positive pump", .sizes = {volume(p->displacement, "each revolution")}};
  }
  if (const auto* p = part.as<GroundDrivenPump>()) {
    return OrderItem{.what = "ground-driven pump", .sizes = {volume(p->displacement, "displacement")}};
  }
  if (const auto* t = part.as<TablePart>()) {  // known by its points alone: the last one tells two of them apart
    return OrderItem{.what = std::string(TablePart::kind),
                     .sizes = {pressure(t->points.back().drop, "loses"), flow(t->points.back().flow, "at")}};
  }
  OrderItem item{.what = std::string(part.kind())};
  if (const auto d = part.bore()) item.sizes.push_back(bore(*d));
  return item;
}

bool alike(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b)); }

bool alike(const OrderItem& a, const OrderItem& b) {
  return a.what == b.what && a.note == b.note &&
         std::equal(a.sizes.begin(), a.sizes.end(), b.sizes.begin(), b.sizes.end(),
                    [](const OrderSize& x, const OrderSize& y) {
                      return x.name == y.name && x.count == y.count && alike(x.value, y.value);
                    });
}

}  // namespace order_detail

}  // namespace libflow
