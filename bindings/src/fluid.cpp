// SPDX-License-Identifier: MIT
// Liquids: the built-in ones, the user's own, blends and nutrients.
#include <cmath>
#include <limits>

#include <libflow/fluid.hpp>

#include "cautions.hpp"
#include "module.hpp"
#include "names.hpp"
#include "record.hpp"

namespace libflow::python {

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

py::object or_none(double x) { return std::isnan(x) ? py::none() : py::object(py::float_(x)); }
double or_nan(py::handle v, std::string_view where) { return v.is_none() ? nan : number_from(v, where); }

py::tuple point_state(const PropertyPoint& p) {
  using Maybe = Convert<std::optional<double>>;
  return py::make_tuple(Maybe::to(p.temperature), p.value, Maybe::to(p.low), Maybe::to(p.high),
                        static_cast<int>(p.confidence), p.source, p.note);
}
PropertyPoint point_from(const py::tuple& t) {
  const auto maybe = [&](std::size_t i) {
    return t[i].is_none() ? std::nullopt : std::optional<double>(t[i].cast<double>());
  };
  return {maybe(0),
          t[1].cast<double>(),
          maybe(2),
          maybe(3),
          static_cast<Confidence>(t[4].cast<int>()),
          t[5].cast<std::string>(),
          t[6].cast<std::string>()};
}
py::list points_state(const std::vector<PropertyPoint>& points) {
  py::list list;
  for (const PropertyPoint& p : points) list.append(point_state(p));
  return list;
}
std::vector<PropertyPoint> points_from(const py::handle& list) {
  std::vector<PropertyPoint> points;
  for (const py::handle item : list.cast<py::list>()) points.push_back(point_from(item.cast<py::tuple>()));
  return points;
}
py::object maybe_state(const std::optional<PropertyPoint>& p) { return p ? py::object(point_state(*p)) : py::none(); }
std::optional<PropertyPoint> maybe_from(const py::handle& o) {
  if (o.is_none()) return std::nullopt;
  return point_from(o.cast<py::tuple>());
}

py::tuple liquid_state(const LiquidRecord& r) {
  py::object analysis = py::none();
  if (r.analysis) analysis = py::make_tuple(r.analysis->n, r.analysis->p2o5, r.analysis->k2o, r.analysis->s);
  return py::make_tuple(r.id, r.name, Convert<std::vector<std::string>>::to(r.aliases), analysis, r.urea, r.thiosulfate,
                        r.iapws_water, points_state(r.density), points_state(r.viscosity), points_state(r.salt_out),
                        maybe_state(r.freezing), maybe_state(r.density_slope), maybe_state(r.ph),
                        maybe_state(r.salt_index), maybe_state(r.water_percent),
                        Convert<std::vector<std::string>>::to(r.notes));
}
Liquid liquid_from(const py::tuple& t) {
  using Texts = Convert<std::vector<std::string>>;
  LiquidRecord r;
  r.id = t[0].cast<std::string>();
  r.name = t[1].cast<std::string>();
  r.aliases = Texts::from(t[2], "aliases");
  if (!t[3].is_none()) {
    const auto a = t[3].cast<py::tuple>();
    r.analysis = Analysis{a[0].cast<double>(), a[1].cast<double>(), a[2].cast<double>(), a[3].cast<double>()};
  }
  r.urea = t[4].cast<bool>();
  r.thiosulfate = t[5].cast<bool>();
  r.iapws_water = t[6].cast<bool>();
  r.density = points_from(t[7]);
  r.viscosity = points_from(t[8]);
  r.salt_out = points_from(t[9]);
  r.freezing = maybe_from(t[10]);
  r.density_slope = maybe_from(t[11]);
  r.ph = maybe_from(t[12]);
  r.salt_index = maybe_from(t[13]);
  r.water_percent = maybe_from(t[14]);
  r.notes = Texts::from(t[15], "notes");
  return Liquid(std::move(r));
}

void add_figures(py::list& all, const char* property, const char* unit, const std::vector<PropertyPoint>& points) {
  for (const PropertyPoint& p : points) {
    py::dict d;
    d["property"] = property;
    d["unit"] = unit;
    d["temperature"] = Convert<std::optional<double>>::to(p.temperature);
    d["value"] = p.value;
    d["low"] = Convert<std::optional<double>>::to(p.low);
    d["high"] = Convert<std::optional<double>>::to(p.high);
    d["confidence"] = std::string(to_text(p.confidence));
    d["source"] = p.source;
    d["note"] = p.note;
    all.append(d);
  }
}

/// [(value, temperature), ...]
template <class Measured, class Q>
std::vector<Measured> measured(py::handle list, std::string_view where) {
  std::vector<Measured> points;
  if (py::isinstance<py::str>(list) || !py::isinstance<py::iterable>(list)) {
    throw InputError(std::string(where), type_name(list) + " where points are wanted",
                     "a list of (value, temperature) pairs");
  }
  for (const py::handle item : list.cast<py::iterable>()) {
    const std::string at = std::string(where) + ", point " + std::to_string(points.size());
    if (py::isinstance<py::str>(item) || !py::isinstance<py::sequence>(item) || py::len(item) != 2) {
      throw InputError(at, type_name(item) + " where a pair is wanted", "(value, temperature)");
    }
    const auto pair = item.cast<py::sequence>();
    const py::object value = pair[0], temperature = pair[1];
    points.push_back({quantity<Q>(value, at), quantity<Temperature>(temperature, at + ", temperature")});
  }
  return points;
}

/// A property at many temperatures.
template <class Of>
py::object at_temperatures(const py::object& temperature, Of of) {
  const auto t = array_from(Kind::temperature, temperature, "temperature");
  py::array_t<double, py::array::c_style> out(std::vector<py::ssize_t>(t.shape(), t.shape() + t.ndim()));
  for (py::ssize_t i = 0; i < t.size(); ++i) out.mutable_data()[i] = of(from_si<Temperature>(t.data()[i]));
  if (out.ndim() == 0) return py::float_(*out.data());
  return out;
}

void add_liquid(py::module_& m) {
  py::class_<Liquid> liquid(
      m, "Liquid",
      "A liquid: density, viscosity and vapour pressure against temperature, each figure with its "
      "source and confidence.\n\nLiquid('10-34-0') is a built-in one (see liquids()); "
      "Liquid.from_points() makes one of your own.");
  liquid
      .def(py::init([](const py::object& name) { return find_liquid(text_from(name, "liquid", "a name")); }),
           py::arg("name") = "water",
           "A built-in liquid by id or grade; case, spaces and dashes do not matter.\n"
           "Raises InputError that lists them, with the nearest name.")
      .def_static(
          "from_points",
          [](const std::string& name, const py::object& density, const py::object& viscosity) {
            return Liquid::from_points(name, measured<MeasuredDensity, Density>(density, "density"),
                                       measured<MeasuredViscosity, Viscosity>(viscosity, "viscosity"));
          },
          py::arg("name"), py::kw_only(), py::arg("density"), py::arg("viscosity") = py::list(),
          "Your own liquid by measured points.\n\ndensity: [(density [kg/m3], temperature [K]), ...], one or more.\n"
          "viscosity: [(viscosity [Pa s], temperature [K]), ...]; without any, only the density can be asked for.\n"
          "Numbers are SI or text with units: ('1.28 SG', '60 F').")
      .def(
          "with_density",
          [](const Liquid& self, const QuantityArg& value, const QuantityArg& at) {
            return self.with_density(quantity<Density>(value, "density"), maybe_quantity<Temperature>(at, "at"));
          },
          py::arg("value"), py::kw_only(), py::arg("at") = py::none(),
          "The same liquid with a weighed density [kg/m3] at a temperature [K] (None: taken as 60 F).")
      .def(
          "with_viscosity",
          [](const Liquid& self, const QuantityArg& value, const QuantityArg& at) {
            return self.with_viscosity(quantity<Viscosity>(value, "viscosity"), quantity<Temperature>(at, "at"));
          },
          py::arg("value"), py::kw_only(), py::arg("at"),
          "The same liquid with a measured viscosity [Pa s] at a temperature [K].")
      .def(
          "at",
          [](const Liquid& self, const QuantityArg& temperature) {
            return self.at(quantity<Temperature>(temperature, "temperature"));
          },
          py::arg("temperature"),
          "The LiquidState at a temperature [K]: numbers, confidence, sources, cautions. -40 to 100 C.")
      .def(
          "density",
          [](const Liquid& self, const ArrayArg& t) {
            return at_temperatures(t, [&](Temperature x) { return si(self.density_at(x)); });
          },
          py::arg("temperature"), "Density [kg/m3] at temperatures [K]; takes arrays.")
      .def(
          "viscosity",
          [](const Liquid& self, const ArrayArg& t) {
            return at_temperatures(t, [&](Temperature x) { return si(self.viscosity_at(x)); });
          },
          py::arg("temperature"), "Dynamic viscosity [Pa s] at temperatures [K]; takes arrays.")
      .def(
          "vapour_pressure",
          [](const Liquid& self, const ArrayArg& t) {
            return at_temperatures(t, [&](Temperature x) { return si(self.vapour_pressure_at(x)); });
          },
          py::arg("temperature"),
          "Vapour pressure of water [Pa absolute], an upper bound for a solution; takes arrays.")
      .def_property_readonly("id", &Liquid::id, "Short name.")
      .def_property_readonly("name", &Liquid::name, "Name for people.")
      .def_property_readonly(
          "aliases", [](const Liquid& s) { return Convert<std::vector<std::string>>::to(s.aliases()); },
          "Other names, e.g. the grade.")
      .def_property_readonly("has_viscosity", &Liquid::has_viscosity, "False where nobody has given a viscosity.")
      .def_property_readonly(
          "analysis", [](const Liquid& s) { return Convert<std::optional<Analysis>>::to(s.analysis()); },
          "Guaranteed analysis [mass %], or None.")
      .def(
          "figures",
          [](const Liquid& self) {
            py::list all;
            add_figures(all, "density", "kg/m3", self.record().density);
            add_figures(all, "viscosity", "Pa s", self.record().viscosity);
            add_figures(all, "salt-out", "K", self.record().salt_out);
            return all;
          },
          "Every figure known, used or not, as a list of dicts: value, unit, temperature [K], band, confidence, "
          "source.")
      .def("__repr__",
           [](const Liquid& self) {
             for (const Liquid& one : catalogue()) {
               if (one.id() == self.id() && liquid_state(one.record()).equal(liquid_state(self.record()))) {
                 return "Liquid('" + self.id() + "')";
               }
             }
             return "<Liquid '" + self.name() + "', figures of its own>";
           })
      .def("__eq__",
           [](const Liquid& self, const py::object& other) -> py::object {
             if (!py::isinstance<Liquid>(other)) return py::reinterpret_borrow<py::object>(Py_NotImplemented);
             return py::bool_(liquid_state(self.record()).equal(liquid_state(other.cast<const Liquid&>().record())));
           })
      .def(py::pickle([](const Liquid& self) { return liquid_state(self.record()); },
                      [](const py::tuple& state) { return liquid_from(state); }));
  liquid.attr("__hash__") = py::none();

  m.def(
      "liquids",
      [] {
        py::list ids;
        for (const Liquid& one : catalogue()) ids.append(one.id());
        return ids;
      },
      "Ids of the built-in liquids.");
  m.def(
      "citation",
      [](const std::string& key) {
        const Citation* found = find_source(key);
        if (found == nullptr) {
          std::vector<std::string> names;
          for (const Citation& one : sources()) names.emplace_back(one.key);
          throw InputError("source", "'" + key + "' is not a source that is known here", {}, nearest_name(key, names));
        }
        return std::string(found->title);
      },
      py::arg("key"), "The source behind a short key, such as LiquidState.density_source names.");
}

void add_blend(py::module_& m) {
  Record<BlendPart>(m, "BlendPart", "One part of a blend.")
      .need<&BlendPart::name>("name", "for messages")
      .may<&BlendPart::analysis>("analysis", "of the liquid; default: water")
      .need<&BlendPart::density>("density", "of the liquid")
      .need<&BlendPart::volume>("volume", "of it, more than 0")
      .done();
  py::class_<Blend>(m, "Blend", "What a mix holds, by mass balance; volumes are taken to add.")
      .def_property_readonly(
          "analysis", [](const Blend& b) { return b.analysis; }, "Analysis of the mix [mass %].")
      .def_property_readonly(
          "density", [](const Blend& b) { return si(b.density); }, "[kg/m3]")
      .def_property_readonly(
          "volume", [](const Blend& b) { return si(b.volume); }, "[m3]")
      .def_property_readonly(
          "mass", [](const Blend& b) { return si(b.mass); }, "[kg]")
      .def_property_readonly(
          "cautions", [](const Blend&) { return cautions_to_python(blend_cautions()); },
          "What a person who mixes has to know.")
      .def("__repr__", [](const Blend& b) {
        return fmt::format("<Blend {}, {:.1f} kg/m3, {:.6g} m3>", grade_text(b.analysis), si(b.density), si(b.volume));
      });
  m.def(
      "blend", [](const py::object& parts) { return blend(Convert<std::vector<BlendPart>>::from(parts, "parts")); },
      py::arg("parts"), "The mix of several BlendPart by mass balance. Nothing here says that products may be mixed.");
  m.def(
      "nutrient_rates",
      [](const QuantityArg& rate, const QuantityArg& density, const Analysis& analysis) {
        const NutrientRates n =
            nutrient_rates(quantity<AreaRate>(rate, "rate"), quantity<Density>(density, "density"), analysis);
        py::dict d;
        d["n"] = si(n.n);
        d["p2o5"] = si(n.p2o5);
        d["k2o"] = si(n.k2o);
        d["s"] = si(n.s);
        return d;
      },
      py::kw_only(), py::arg("rate"), py::arg("density"), py::arg("analysis"),
      "Nutrients that a rate [m3/m2] of a liquid brings, each [kg/m2]; P and K as oxides.");
}

}  // namespace

void add_fluid(py::module_& m) {
  Record<Caution>(m, "Caution", "Something that was computed but that a person should know about.")
      .need<&Caution::code>("code", "short fixed word, e.g. 'below-salt-out'")
      .may<&Caution::subject>("subject", "the part, place or liquid it speaks of")
      .may<&Caution::text>("text", "plain words")
      .own(
          "value", "float | None", "what was found, SI; None where there is no number", false,
          [](Caution& c, py::handle v, std::string_view w) { c.value = or_nan(v, w); },
          [](const Caution& c) { return or_none(c.value); })
      .own(
          "limit", "float | None", "what it is held against, SI", false,
          [](Caution& c, py::handle v, std::string_view w) { c.limit = or_nan(v, w); },
          [](const Caution& c) { return or_none(c.limit); })
      .may<&Caution::source>("source", "where the limit comes from")
      .done();
  Record<Analysis> analysis(m, "Analysis", "Guaranteed analysis [mass %]: phosphorus and potassium as oxides.");
  analysis.may<&Analysis::n>("n", "nitrogen, N [mass %]")
      .may<&Analysis::p2o5>("p2o5", "phosphate, P2O5 [mass %]")
      .may<&Analysis::k2o>("k2o", "potash, K2O [mass %]")
      .may<&Analysis::s>("s", "sulfur, S [mass %]")
      .done([](const Analysis& a, std::string_view where) { check(a, where); })
      .def_static(
          "parse", [](const std::string& text) { return parse_analysis(text); }, py::arg("text"),
          "A grade as on a label: '10-34-0', '12-0-0-26S' [mass %].")
      .def_property_readonly(
          "grade", [](const Analysis& a) { return grade_text(a); }, "As on a label.");
  Record<LiquidState>(m, "LiquidState", "A liquid at one temperature.")
      .may<&LiquidState::name>("name", "of the liquid")
      .si<&LiquidState::temperature>("temperature", Kind::temperature, "of the liquid")
      .si<&LiquidState::density>("density", Kind::density, "of the liquid")
      .si<&LiquidState::viscosity>("viscosity", Kind::viscosity, "dynamic")
      .si<&LiquidState::vapour_pressure>("vapour_pressure", Kind::pressure, "absolute, of water: an upper bound")
      .may<&LiquidState::density_confidence>("density_confidence", "how far the density can be trusted")
      .may<&LiquidState::viscosity_confidence>("viscosity_confidence", "how far the viscosity can be trusted")
      .si<&LiquidState::density_low>("density_low", Kind::density, "low end of the figures")
      .si<&LiquidState::density_high>("density_high", Kind::density, "high end of the figures")
      .si<&LiquidState::viscosity_low>("viscosity_low", Kind::viscosity, "low end of the band")
      .si<&LiquidState::viscosity_high>("viscosity_high", Kind::viscosity, "high end of the band")
      .may<&LiquidState::density_source>("density_source", "keys for citation(), comma-separated")
      .may<&LiquidState::viscosity_source>("viscosity_source", "keys for citation(), comma-separated")
      .may<&LiquidState::cautions>("cautions", "what a person should know")
      .done([](const LiquidState& s, std::string_view where) {
        require_in(std::string(where) + ", density", s.density, liquid_density, "kg/m3");
        require_in(std::string(where) + ", viscosity", s.viscosity, liquid_viscosity, "Pa s");
      });
  add_liquid(m);
  add_blend(m);
}

}  // namespace libflow::python
