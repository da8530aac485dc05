// SPDX-License-Identifier: MIT
// Layouts, the main job and the comparison, layout files, results as text and JSON.
#include <fmt/format.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/report/comparison_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/compare.hpp>

#include "answers.hpp"
#include "module.hpp"
#include "state.hpp"
#include "tees.hpp"

namespace libflow::python {

namespace {

/// One row of a free-form network, by ids.
struct Row {
  int row = 0;
  Length width{};
  std::vector<std::string> airs{};
  Length hose_length = from_si<Length>(0.0);
  Length x = from_si<Length>(0.0);
  std::vector<std::string> hoses{}, orifices{}, check_valves{};
  bool shut = false;
};

Plumbing plumbing_from(const PyNetwork& network, const std::string& supply, const std::vector<Row>& rows) {
  Plumbing p;
  p.network = network.network;
  p.supply = p.network.find_place(supply, "Plumbing, supply");
  const auto indices = [&](const std::vector<std::string>& ids, const std::string& where) {
    std::vector<Network::PartIndex> all;
    for (const std::string& id : ids) all.push_back(p.network.find_part(id, where));
    return all;
  };
  for (const Row& given : rows) {
    const std::string where = fmt::format("row {}", given.row);
    if (given.row != static_cast<int>(p.rows.size()) + 1) {
      throw InputError("Plumbing, rows", fmt::format("row {} is number {} in the list", given.row, p.rows.size() + 1),
                       "rows in order: 1, 2, 3 ...");
    }
    require_in(where + ", width", si(given.width), layout_limits::spacing, "m");
    RowPlumbing row;
    row.row = given.row;
    row.x = si(given.x);
    row.width = si(given.width);
    row.hose_length = si(given.hose_length);
    row.shut = given.shut;
    row.hoses = indices(given.hoses, where + ", hoses");
    row.orifices = indices(given.orifices, where + ", orifices");
    row.check_valves = indices(given.check_valves, where + ", check_valves");
    for (const std::string& id : given.airs) {
      const auto air = p.network.find_place(id, where + ", airs");
      std::vector<Network::PartIndex> last;
      for (std::size_t i = 0; i < p.network.part_count(); ++i) {
        if (p.network.to(i) == air || p.network.from(i) == air) last.push_back(i);
      }
      if (last.size() != 1) {
        throw InputError(where + ", airs", fmt::format("{} parts end at '{}'", last.size(), id), "one part");
      }
      row.airs.push_back(air);
      row.last_parts.push_back(last.front());
    }
    if (row.airs.empty() && !row.shut) throw InputError(where + ", airs", "none given", "where its liquid leaves");
    p.rows.push_back(std::move(row));
  }
  if (p.rows.empty()) throw InputError("Plumbing, rows", "none given", "at least one Row");
  return p;
}

py::list row_list(const Plumbing& p) {
  py::list all;
  const auto part_ids = [&](const std::vector<Network::PartIndex>& parts) {
    py::list ids;
    for (const auto i : parts) ids.append(p.network.part(i).id);
    return ids;
  };
  for (const RowPlumbing& row : p.rows) {
    py::dict d;
    py::list airs;
    for (const auto a : row.airs) airs.append(p.network.place(a).id);
    d["row"] = row.row;
    d["x"] = row.x;
    d["width"] = row.width;
    d["hose_length"] = row.hose_length;
    d["shut"] = row.shut;
    d["airs"] = airs;
    d["last_parts"] = part_ids(row.last_parts);
    d["hoses"] = part_ids(row.hoses);
    d["orifices"] = part_ids(row.orifices);
    d["check_valves"] = part_ids(row.check_valves);
    all.append(d);
  }
  return all;
}

py::object plumbing_to_python(const std::variant<Toolbar, Plumbing>& plumbing) {
  return std::visit([](const auto& one) { return py::cast(one); }, plumbing);
}

TextOptions text_options(const py::object& units, int width) {
  TextOptions options;
  if (!units.is_none()) options.units = Convert<UnitSystem>::from(units, "units");
  options.width = static_cast<std::size_t>(std::max(80, width));
  return options;
}

void add_layout(py::module_& m) {
  Record<Row>(m, "Row", "One row of a network that was drawn place by place: which of its parts belong to it.")
      .need<&Row::row>("row", "1-based")
      .need<&Row::width>("width", "field width that it covers")
      .need<&Row::airs>("airs", "ids of the places where its liquid leaves")
      .may<&Row::hose_length>("hose_length", "0 where it has none")
      .may<&Row::x>("x", "along the bar from its centre, + right: its speed in a turn")
      .may<&Row::hoses>("hoses", "ids of its hoses")
      .may<&Row::orifices>("orifices", "ids of its orifices, one an outlet")
      .may<&Row::check_valves>("check_valves", "ids of its check valves")
      .may<&Row::shut>("shut", "valved off")
      .done();
  py::class_<Plumbing> plumbing(m, "Plumbing", "A network together with which of its parts belong to which row.");
  plumbing
      .def(py::init([](const PyNetwork& network, const std::string& supply, const py::object& rows) {
             return plumbing_from(network, supply, Convert<std::vector<Row>>::from(rows, "Plumbing, rows"));
           }),
           py::kw_only(), py::arg("network"), py::arg("supply"), py::arg("rows"),
           "network: a Network. supply: id of the place whose pressure a gauge shows. rows: a list of Row.")
      .def_property_readonly(
          "network",
          [](const Plumbing& p) {
            auto copy = std::make_shared<PyNetwork>();
            copy->network = p.network;
            return copy;
          },
          "A copy of its network; its tees are in tees.")
      .def_property_readonly(
          "tees", [](const Plumbing& p) { return named_tees(p.network, p.tees); },
          "Its tees, a list of TeeAt, for solve(plumbing.network, liquid, tees=plumbing.tees).")
      .def_property_readonly(
          "supply", [](const Plumbing& p) { return p.network.place(p.supply).id; },
          "Id of the place whose pressure a gauge shows.")
      .def_property_readonly("rows", &row_list, "Every row as a dict: row, x [m], width [m], hose_length [m], ids.")
      .def_property_readonly(
          "hose_total", [](const Plumbing& p) { return p.hose_total; }, "All hose to cut [m].")
      .def("__eq__",
           [](const Plumbing& p, const py::object& other) -> py::object {
             if (!py::isinstance<Plumbing>(other)) return py::reinterpret_borrow<py::object>(Py_NotImplemented);
             return py::bool_(to_state(p).equal(to_state(other.cast<const Plumbing&>())));
           })
      .def(py::pickle([](const Plumbing& p) { return to_state(p).cast<py::tuple>(); },
                      [](const py::tuple& state) { return from_state<Plumbing>(state); }))
      .def("__repr__", [](const Plumbing& p) {
        return fmt::format("<Plumbing of {} rows, {} places, {} parts>", p.rows.size(), p.network.place_count(),
                           p.network.part_count());
      });
  plumbing.attr("__hash__") = py::none();
  Record<Layout>(m, "Layout", "A layout as a whole: what is plumbed and what it has to do.")
      .may<&Layout::name>("name", "for people")
      .need<&Layout::job>("job", "what it has to do")
      .own(
          "plumbing", "libflow._libflow.Toolbar | libflow._libflow.Plumbing", "a Toolbar, or a Plumbing", true,
          [](Layout& l, py::handle v, std::string_view where) {
            if (py::isinstance<Toolbar>(v)) {
              l.plumbing = v.cast<Toolbar>();
            } else if (py::isinstance<Plumbing>(v)) {
              l.plumbing = v.cast<Plumbing>();
            } else {
              throw InputError(std::string(where), type_name(v) + " where plumbing is wanted",
                               "a Toolbar or a Plumbing");
            }
          },
          [](const Layout& l) { return plumbing_to_python(l.plumbing); })
      .may<&Layout::units>("units", "for what a person reads")
      .may<&Layout::range>("range", "speeds and rates that it works over; empty: the job's only")
      .may<&Layout::tolerances>("tolerances", "what may differ as built and at work, a list of Tolerance")
      .done();
  m.def(
      "read_layout",
      [](const py::object& path) {
        return read_layout(std::string(py::str(py::module_::import("os").attr("fspath")(path))));
      },
      py::arg("path"),
      "The Layout in a layout file (TOML). Raises InputError with file, line, column, key and the nearest valid name.");
  m.def(
      "parse_layout", [](const std::string& text, const std::string& name) { return parse_layout(text, name); },
      py::arg("text"), py::arg("name") = "layout.toml", "The Layout in the text of a layout file; name: for messages.");
  m.def(
      "build", [](const Toolbar& t, const Job& job) { return build_network(t, job); }, py::arg("toolbar"),
      py::arg("job"), "The Plumbing of a toolbar for a job.");
}

py::tuple answer_state(const Answer& a) {
  return py::make_tuple(a.layout, a.plumbing, a.liquid, to_state(a.solution), to_state(a.evenness),
                        to_state(a.viscosity_band), to_state(a.built));
}
Answer answer_from(const py::tuple& state) {
  require_fields(state, 7);
  return {.layout = state[0].cast<Layout>(),
          .plumbing = state[1].cast<Plumbing>(),
          .liquid = state[2].cast<LiquidState>(),
          .solution = from_state<Solution>(state[3]),
          .evenness = from_state<Evenness>(state[4]),
          .viscosity_band = from_state<std::vector<ViscosityEnd>>(state[5]),
          .built = from_state<std::optional<AsBuilt>>(state[6])};
}

template <class Class>
void row_arrays(Class& c) {
  const auto array = [&c](const char* name, double RowResult::*member, const char* doc) {
    c.def_property_readonly(
        name,
        [member](const py::object& self) {
          return column_view(self.cast<const Answer&>().evenness.rows, member, self);
        },
        doc);
  };
  array("flow", &RowResult::flow, "All outlets of each row together [m3/s].");
  array("rate", &RowResult::rate, "Rate of each row [m3/m2].");
  array("deviation", &RowResult::deviation, "Rate over the mean rate of each row, less one [-].");
  array("width", &RowResult::width, "Field width that each row covers [m].");
  array("speed", &RowResult::speed, "Ground speed of each row [m/s].");
  array("hose_length", &RowResult::hose_length, "Of each row [m].");
  array("orifice_drop", &RowResult::orifice_drop, "Of each row [Pa].");
  array("check_valve_drop", &RowResult::check_valve_drop, "Of each row [Pa].");
  array("line_drop", &RowResult::line_drop, "Hose, bar and everything else of each row [Pa].");
  array("unused_fall", &RowResult::unused_fall, "Height that a hanging tube of each row does not use [Pa].");
  array("lift", &RowResult::lift, "Static head up to each row's outlet [Pa].");
  array("orifice_share", &RowResult::orifice_share, "Of each row's friction drop [-].");
  array("hose_reynolds", &RowResult::hose_reynolds, "In each row's hose [-].");
  c.def_property_readonly(
       "row",
       [](const py::object& self) {
         return column_view(self.cast<const Answer&>().evenness.rows, &RowResult::row, self);
       },
       "Numbers of the rows, from 1 at the left end.")
      .def_property_readonly(
          "shut",
          [](const py::object& self) {
            return column_view(self.cast<const Answer&>().evenness.rows, &RowResult::shut, self);
          },
          "Rows that are valved off.")
      .def_property_readonly(
          "regime", [](const Answer& a) { return words(a.evenness.rows, &RowResult::regime); },
          "Flow in each row's hose: 'laminar', ...")
      .def_property_readonly(
          "valve", [](const Answer& a) { return words(a.evenness.rows, &RowResult::valve); },
          "'closed' when any of a row's outlets is closed.");
}

template <class Class>
void verdict_numbers(Class& c) {
  const auto number = [&c](const char* name, double Evenness::*member, const char* doc) {
    c.def_property_readonly(
        name, [member](const Answer& a) { return a.evenness.*member; }, doc);
  };
  number("tolerance", &Evenness::tolerance, "Each counted row within this fraction of the mean [-].");
  number("mean_rate", &Evenness::mean_rate, "Of the counted rows [m3/m2].");
  number("target_rate", &Evenness::target_rate, "What the job asked for [m3/m2].");
  number("total_flow", &Evenness::total_flow, "[m3/s]");
  number("supply_pressure", &Evenness::supply_pressure, "Total gauge pressure at the supply [Pa].");
  number("cv", &Evenness::cv, "Coefficient of variation of the rates, sample standard deviation over mean [-].");
  number("christiansen", &Evenness::christiansen, "Christiansen's uniformity coefficient [-], 1 is perfect.");
  number("low_quarter", &Evenness::low_quarter, "Low-quarter distribution uniformity [-], 1 is perfect.");
  c.def_property_readonly(
       "even", [](const Answer& a) { return a.solution.usable() && a.evenness.even; },
       "Every counted row is within the tolerance.")
      .def_property_readonly(
          "highest_row", [](const Answer& a) { return a.evenness.highest_row; }, "Row number.")
      .def_property_readonly(
          "lowest_row", [](const Answer& a) { return a.evenness.lowest_row; }, "Row number.")
      .def_property_readonly(
          "outside", [](const Answer& a) { return Convert<std::vector<int>>::to(a.evenness.outside); },
          "Rows outside the tolerance.")
      .def_property_readonly(
          "causes",
          [](const Answer& a) {
            py::dict all;
            for (const Cause& cause : a.evenness.causes) all[py::str(cause.name)] = cause.share;
            return all;
          },
          "What makes the rows differ: cause to its share of the variance [-], largest first; they add up to 1.")
      .def(
          "cause_deviation",
          [](const py::object& self, const std::string& name) -> py::array {
            const Answer& a = self.cast<const Answer&>();
            std::vector<std::string> names;
            for (const Cause& cause : a.evenness.causes) {
              if (cause.name == name) {
                return py::array_t<double>(static_cast<py::ssize_t>(cause.deviation.size()), cause.deviation.data());
              }
              names.push_back(cause.name);
            }
            std::string allowed;
            for (const std::string& n : names) allowed += (allowed.empty() ? "" : ", ") + n;
            throw InputError("cause", "'" + name + "' is not a cause here", allowed, nearest_name(name, names));
          },
          py::arg("cause"), "Deviation of each row that one cause makes [-]; those of all causes add up.")
      .def_property_readonly(
          "reference", [](const Answer& a) { return a.evenness.reference; },
          "The even bar that causes are measured against, in words; '' where there are none.")
      .def_property_readonly(
          "viscosity_band",
          [](const Answer& a) {
            py::list ends;
            for (const ViscosityEnd& end : a.viscosity_band) ends.append(end);
            return ends;
          },
          "The verdict at the ends of the viscosity's band, a list of ViscosityEnd, the thin end first; empty where "
          "no\n"
          "band is known or nothing was solved.")
      .def_property_readonly(
          "verdict_word", [](const Answer& a) { return verdict_word(a); },
          "'EVEN', 'EVEN, not sure', 'NOT EVEN', 'NOT EVEN, not sure' or 'NOT SOLVED'; not sure: another one at an "
          "end\n"
          "of the viscosity's band, or by orifices that meter nothing.")
      .def_property_readonly(
          "rate_reached", [](const Answer& a) { return a.solution.usable() && short_of_rate(a) == nullptr; },
          "The wanted rate is given within the pressure that there is.")
      .def_property_readonly(
          "as_built",
          [](const Answer& a) -> py::object {
            if (!a.built) return py::none();
            py::dict built;
            built["share_of_machines_even"] = a.built->within;
            built["mean_cv"] = a.built->mean_cv;
            return built;
          },
          "With the layout's tolerances, to first order: which share of such machines is even [-], and their mean\n"
          "coefficient of variation [-]; None without tolerances. tolerance() solves the machines one by one.")
      .def_property_readonly(
          "cautions", [](const Answer& a) { return cautions_to_python(all_cautions(a)); },
          "What a person should know, a list of Caution.");
}

void add_viscosity_end(py::module_& m) {
  py::class_<ViscosityEnd> c(
      m, "ViscosityEnd",
      "The verdict if the product's viscosity were at one end of its band, the control brought to the rate anew.");
  const auto field = [&c](const char* name, auto member, const char* doc) {
    c.def_property_readonly(
        name, [member](const ViscosityEnd& end) { return end.*member; }, doc);
  };
  field("viscosity", &ViscosityEnd::viscosity, "At the job's temperature [Pa s].");
  field("upper", &ViscosityEnd::upper, "The thick end of the band.");
  field("solved", &ViscosityEnd::solved, "There is an answer.");
  field("even", &ViscosityEnd::even, "Every counted row is within the tolerance.");
  field("cv", &ViscosityEnd::cv, "Coefficient of variation of the rates [-].");
  field("worst_row", &ViscosityEnd::worst_row, "The row furthest from the mean, from 1; 0: none.");
  field("worst_deviation", &ViscosityEnd::worst_deviation, "Of that row, signed [-].");
  field("pressure", &ViscosityEnd::pressure, "At the gauge [Pa]; 0 where there is no answer.");
  field("stop", &ViscosityEnd::stop,
        "What keeps it from the wanted rate, or why there is no answer; '': nothing does.");
  c.def("__eq__",
        [](const ViscosityEnd& end, const py::object& other) -> py::object {
          if (!py::isinstance<ViscosityEnd>(other)) return py::reinterpret_borrow<py::object>(Py_NotImplemented);
          return py::bool_(to_state(end).equal(to_state(other.cast<const ViscosityEnd&>())));
        })
      .def(py::pickle([](const ViscosityEnd& end) { return to_state(end).cast<py::tuple>(); },
                      [](const py::tuple& state) { return from_state<ViscosityEnd>(state); }))
      .def("__repr__", [](const ViscosityEnd& end) {
        return fmt::format("<ViscosityEnd {:.4g} Pa s: {}>", end.viscosity,
                           !end.solved         ? "no answer"
                           : !end.stop.empty() ? "the rate is not reached"
                           : end.even          ? "even"
                                               : "not even");
      });
  c.attr("__hash__") = py::none();
}

void add_answer(py::module_& m) {
  add_viscosity_end(m);
  py::class_<Answer, std::shared_ptr<Answer>> c(
      m, "Answer",
      "A layout and everything that was found out about it: the verdict, the rows, why, and how sure.\n\n"
      "Arrays are read-only views by row. print() shows the report, a notebook a table.");
  row_arrays(c);
  verdict_numbers(c);
  c.def_property_readonly(
       "layout", [](const Answer& a) { return a.layout; }, "What was asked.")
      .def_property_readonly(
          "plumbing", [](const Answer& a) { return a.plumbing; }, "Its network and rows.")
      .def_property_readonly(
          "liquid", [](const Answer& a) { return a.liquid; }, "The liquid at its temperature.")
      .def_property_readonly(
          "solution",
          [](const std::shared_ptr<Answer>& a) {
            PySolution s;
            s.solution = a->solution;
            s.network = std::shared_ptr<const Network>(a, &a->plumbing.network);
            s.liquid = a->liquid;
            s.tees = a->plumbing.tees;
            return s;
          },
          "Flows and pressures of the whole network.")
      .def_property_readonly(
          "verdict", [](const Answer& a) { return verdict_sentence(a); }, "In one sentence.")
      .def(
          "to_json", [](const Answer& a) { return to_text(results_to_json(a)); },
          "As `libflow solve --json` prints it: SI numbers with their unit in the key.")
      .def(
          "to_csv", [](const Answer& a) { return results_to_csv(a, a.layout.units); },
          "The rows as `libflow solve --csv` prints them.")
      .def(
          "text",
          [](const Answer& a, const py::object& units, int width) {
            return main_job_text(a, text_options(units, width));
          },
          py::kw_only(), py::arg("units") = py::none(), py::arg("width") = 100,
          "The report as `libflow solve` prints it. units: 'us', 'metric' or None (as the layout asks); width: "
          "columns.")
      .def(
          "frame", [](const py::object& self) { return call_python("libflow._frames", "rows_frame", self); },
          "The rows as a pandas DataFrame, SI units in the column names.")
      .def(py::pickle(&answer_state,
                      [](const py::tuple& state) { return std::make_shared<Answer>(answer_from(state)); }))
      .def("__str__", [](const Answer& a) { return main_job_text(a); })
      .def("__repr__", [](const Answer& a) { return "<Answer: " + verdict_sentence(a) + ">"; })
      .def("_repr_html_", [](const py::object& self) { return call_python("libflow._html", "answer_html", self); });
  m.def(
      "main_job",
      [](const Layout& layout) {
        const py::gil_scoped_release release;
        return std::make_shared<Answer>(main_job(layout));
      },
      py::arg("layout"),
      "Is this layout even at its job, and if not, why? Other threads run meanwhile.\n"
      "Raises InputError for a layout that cannot be, IllPosedError for plumbing that cannot have an answer.");

  py::class_<Comparison>(m, "Comparison", "Two or more layouts at one rate, and which is evener.")
      .def_property_readonly(
          "answers",
          [](const Comparison& both) {
            py::list all;
            for (const Answer& a : both.answers) all.append(py::cast(std::make_shared<Answer>(a)));
            return all;
          },
          "One Answer a layout, in the order given.")
      .def_property_readonly(
          "evenest", [](const Comparison& both) { return both.evenest; }, "Index of the lowest CV.")
      .def_property_readonly(
          "least_even", [](const Comparison& both) { return both.least_even; }, "Index of the highest CV.")
      .def_property_readonly(
          "deciding_cause", [](const Comparison& both) { return both.deciding_cause; },
          "What makes the difference; '' where it is not known.")
      .def_property_readonly(
          "verdict", [](const Comparison& both) { return verdict_sentence(both); }, "In one sentence.")
      .def_property_readonly(
          "cautions", [](const Comparison& both) { return cautions_to_python(both.cautions); },
          "About the comparison itself.")
      .def(
          "to_json", [](const Comparison& both) { return to_text(comparison_to_json(both)); },
          "As `libflow compare --json` prints it.")
      .def(
          "text",
          [](const Comparison& both, const py::object& units, int width) {
            return comparison_text(both, text_options(units, width));
          },
          py::kw_only(), py::arg("units") = py::none(), py::arg("width") = 100,
          "The report as `libflow compare` prints it.")
      .def(py::pickle(
          [](const Comparison& both) {
            py::list answers;
            for (const Answer& a : both.answers) answers.append(answer_state(a));
            return py::make_tuple(answers, both.evenest, both.least_even, both.deciding_cause, to_state(both.cautions));
          },
          [](const py::tuple& state) {
            require_fields(state, 5);
            Comparison both;
            for (const py::handle a : state[0].cast<py::list>())
              both.answers.push_back(answer_from(a.cast<py::tuple>()));
            both.evenest = state[1].cast<std::size_t>();
            both.least_even = state[2].cast<std::size_t>();
            both.deciding_cause = state[3].cast<std::string>();
            both.cautions = from_state<Cautions>(state[4]);
            return both;
          }))
      .def("__str__", [](const Comparison& both) { return comparison_text(both); })
      .def("__repr__", [](const Comparison& both) { return "<Comparison: " + verdict_sentence(both) + ">"; });
  m.def(
      "compare",
      [](const py::object& layouts) {
        const auto all = Convert<std::vector<Layout>>::from(layouts, "layouts");
        const py::gil_scoped_release release;
        return compare(all);
      },
      py::arg("layouts"), "Layouts side by side at the first one's rate and speed.");
}

}  // namespace

void add_answers(py::module_& m) {
  add_layout(m);
  add_answer(m);
}

}  // namespace libflow::python
