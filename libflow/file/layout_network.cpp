// SPDX-License-Identifier: MIT
#include <libflow/file/layout_network.hpp>

#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <libflow/file/layout_job.hpp>
#include <libflow/file/layout_part_keys.hpp>
#include <libflow/file/layout_parts.hpp>
#include <libflow/file/layout_tank.hpp>
#include <libflow/file/layout_tees.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/network/tank_supply.hpp>
#include <libflow/parts.hpp>
#include <libflow/parts/words.hpp>
#include <libflow/toolbar/ground.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

namespace file_detail {

/// Builds a Plumbing from the two lists; keeps what is needed to name lines.
class PlumbingReader {
 public:
  PlumbingReader(const TomlTable& top, const Job& job)
      : top_(top),
        job_(job),
        places_(top.tables("place", layout_keys::place)),
        parts_(top.tables("part", layout_keys::part)) {}

  Plumbing read() {
    if (places_.empty()) top_.fail({}, "no place is given", "at least one [[place]]");
    if (parts_.empty()) top_.fail({}, "no part joins the places", "at least one [[part]]");
    for (const TomlTable& table : places_) add_place(table);
    number_rows();
    for (const TomlTable& table : parts_) add_part(table);
    plumbing_.tees = read_tees(top_, network());
    choose_supply();
    for (RowPlumbing& row : plumbing_.rows) trace(row);
    set_fed_flow();
    return std::move(plumbing_);
  }

 private:
  Network& network() { return plumbing_.network; }

  static constexpr Range soil_pressure{0.0, 1e5};  // [Pa gauge]
  static constexpr Range soil_depth{0.0, 2.0};     // [m], that soil_back_pressure takes

  void add_place(const TomlTable& table) {
    enum class Word { supply, fed, drawn, junction, air, soil };
    static const Choices<Word> words{{"supply", Word::supply},     {"fed", Word::fed}, {"drawn", Word::drawn},
                                     {"junction", Word::junction}, {"air", Word::air}, {"soil", Word::soil}};
    const std::string id = table.text("id");
    const Word kind = table.choice<Word>("kind", words);
    const Length height =
        table.optional_quantity<Length>("elevation", Network::elevation_range).value_or(from_si<Length>(0.0));
    std::vector<std::string_view> keys{"id", "kind", "elevation"};
    switch (kind) {
      case Word::supply:
        keys.insert(keys.end(), {"pressure", "tank", "gauge"});
        break;
      case Word::fed:
        keys.insert(keys.end(), {"flow", "gauge"});
        break;
      case Word::drawn:
        keys.push_back("flow");
        break;
      case Word::air:
        keys.insert(keys.end(), {"row", "width", "x"});
        break;
      case Word::soil:
        keys.insert(keys.end(), {"row", "width", "x", "pressure", "depth"});
        break;
      case Word::junction:
        keys.push_back("gauge");
        break;
    }
    require_fitting_keys(table, layout_keys::place, fmt::format("kind = \"{}\"", table.text("kind")), keys);
    // Read first what names its own line.
    std::optional<Pressure> pressure;
    std::optional<FilledTank> tank;
    std::optional<Flow> flow;
    if (kind == Word::soil) {
      pressure = given_by(table, "pressure", {"depth"})
                     ? table.quantity<Pressure>("pressure", soil_pressure)
                     : soil_back_pressure(table.quantity<Length>("depth", soil_depth), liquid());
    }
    if (kind == Word::supply) {
      if (given_by(table, "pressure", {"tank"})) {
        pressure = table.quantity<Pressure>("pressure", Network::pressure_range);
      } else {
        tank = read_tank(table.table("tank", layout_keys::tank));
      }
    }
    if (kind == Word::fed) flow = table.optional_quantity<Flow>("flow", Network::flow_range);
    if (kind == Word::fed && !flow) open_fed_.push_back(network().place_count());
    if (kind == Word::drawn) flow = table.quantity<Flow>("flow", Network::flow_range);
    placed(table.where("id"), [&] {
      if (pressure) return network().add_supply(id, *pressure, height);
      if (tank) return add_tank(network(), id, tank->tank, tank->level, liquid(), height);
      if (kind == Word::fed) return network().add_fed(id, flow.value_or(from_si<Flow>(0.0)), height);
      if (kind == Word::drawn) return network().add_drawn(id, *flow, height);
      return kind == Word::air ? network().add_air(id, height) : network().add_place(id, height);
    });
    if (tank) plumbing_.tanks.push_back({network().place_count() - 1, tank->tank, si(tank->level)});
    if (kind == Word::soil) soils_.insert(network().place_count() - 1);
    if (kind == Word::air || kind == Word::soil) add_to_row(table);
  }

  [[nodiscard]] LiquidState liquid() const { return job_.liquid.at(job_.temperature); }

  /// Notes the row that an air or soil place waters.
  void add_to_row(const TomlTable& table) {
    if (!table.has("row")) {
      for (const std::string_view key : {"width", "x"}) {
        if (table.has(key)) table.fail(key, "goes with a row only", "row = 1, 2, ...");
      }
      return;
    }
    const int number = table.count("row", 1, layout_limits::rows);
    const auto width = table.optional_quantity<Length>("width", layout_limits::spacing, Reads::bore);
    const auto x = table.optional_quantity<Length>("x", {-1000.0, 1000.0});
    RowPlumbing& row = rows_[number];
    row.row = number;
    row.airs.push_back(network().place_count() - 1);
    first_air_.try_emplace(number, &table);
    if (width) {
      if (row.width > 0.0 && row.width != si(*width)) {
        table.fail("width", fmt::format("row {} has another width already", number), "one width for each row");
      }
      row.width = si(*width);
    }
    if (x) {
      if (x_.contains(number) && x_[number] != si(*x)) {
        table.fail("x", fmt::format("row {} is somewhere else already", number), "one x for each row");
      }
      x_[number] = si(*x);
    }
  }

  /// Rows are numbered without gaps; where no x is given they lie side by side around the middle.
  void number_rows() {
    if (rows_.empty()) {
      top_.fail("place", "no place waters a row", "at least one kind = \"air\" with row and width");
    }
    double total = 0.0;
    int expected = 1;
    for (const auto& [number, row] : rows_) {
      const TomlTable& table = *first_air_.at(number);
      if (number != expected) {
        table.fail("row", fmt::format("row {} follows row {}", number, expected - 1),
                   fmt::format("row {} next", expected));
      }
      ++expected;
      if (!(row.width > 0.0)) table.need("width");
      total += row.width;
    }
    if (!x_.empty() && x_.size() != rows_.size()) {
      for (const auto& [number, row] : rows_) {
        if (!x_.contains(number)) first_air_.at(number)->need("x");
      }
    }
    double left = -total / 2.0;
    for (auto& [number, row] : rows_) {
      row.x = x_.contains(number) ? x_[number] : left + row.width / 2.0;
      left += row.width;
      plumbing_.rows.push_back(row);
      if (job_.turn_radius && std::abs(si(*job_.turn_radius)) <= std::abs(row.x)) {
        throw InputError(top_.where("job"),
                         fmt::format("turn_radius: row {} would stand still or run backwards", number),
                         "more than " + parts_detail::length_words(std::abs(row.x)));
      }
    }
  }

  void add_part(const TomlTable& table) {
    static const Choices<const PartKind*> kinds = [] {
      Choices<const PartKind*> choices;
      for (const PartKind& kind : part_kind_table()) choices.emplace_back(kind.name, &kind);
      return choices;
    }();
    const PartKind& kind = *table.choice<const PartKind*>("kind", kinds);
    std::vector<std::string_view> keys{"id", "kind", "from", "to", "row"};
    keys.insert(keys.end(), kind.keys.begin(), kind.keys.end());
    require_fitting_keys(table, layout_keys::part, fmt::format("kind = \"{}\"", kind.name), keys);
    const std::string id = table.text("id");
    Part part = kind.read(table, job_);
    // find_place names the field itself; the line comes from here, but for what is wrong with the text.
    const auto place = [&](std::string_view key) {
      const std::string name = table.text(key);
      return placed(table.where(key), [&] { return network().find_place(name, ""); });
    };
    const auto from = place("from"), to = place("to");
    if (network().place(from).kind == PlaceKind::air || soils_.contains(from)) {
      table.fail("from",
                 fmt::format("{} is {}: liquid leaves there", in_quotes(table.text("from")),
                             soils_.contains(from) ? "in the soil" : "open to the air"),
                 "an air or soil place as 'to'");
    }
    const Network::PartIndex index =
        placed(table.where("id"), [&] { return network().add_part(id, from, to, std::move(part)); });
    if (kind.name != "pipe") {
      if (const auto length = hose_length(index)) {
        hoses_.insert(index);
        plumbing_.cut_hoses.push_back(index);
        plumbing_.hose_total += *length;
      }
    }
    if (table.has("row")) tagged_[table.count("row", 1, static_cast<int>(rows_.size()))].push_back(index);
  }
  /// [m]; empty for what is no hose.
  std::optional<double> hose_length(Network::PartIndex index) {
    const Part& part = network().part(index).part;
    if (const auto* hose = part.as<Hose>()) return si(hose->length);
    if (const auto* hose = part.as<SuspensionHose>()) return si(hose->length);
    return std::nullopt;
  }

  /// The place whose pressure a gauge shows.
  void choose_supply() {
    std::optional<Network::PlaceIndex> fed, supply, gauge;
    for (const TomlTable& table : places_) {
      const Network::PlaceIndex i = network().find_place(table.text("id"));
      const PlaceKind kind = network().place(i).kind;
      if (kind == PlaceKind::fed && !fed) fed = i;
      if (kind == PlaceKind::supply && !supply && !soils_.contains(i)) supply = i;
      if (!table.flag("gauge", false)) continue;
      if (gauge) table.fail("gauge", "the pressure is read at two places", "one place with gauge = true");
      gauge = i;
    }
    if (!fed && !supply) top_.fail("place", "nothing feeds the plumbing", "a place of kind \"supply\" or \"fed\"");
    plumbing_.supply = gauge ? *gauge : fed ? *fed : *supply;
  }

  /// The parts of a row: from each air place back while the plumbing does not branch, and those tagged with it.
  void trace(RowPlumbing& row) {
    const auto& graph = plumbing_.network.graph();
    std::vector<std::vector<Network::PartIndex>> joined(plumbing_.network.place_count());
    for (Network::PartIndex p = 0; p < network().part_count(); ++p) {
      joined[network().from(p)].push_back(p);
      joined[network().to(p)].push_back(p);
    }
    std::set<Network::PartIndex> seen;
    std::vector<double> run;  // hose of each outlet
    for (const Network::PlaceIndex air : row.airs) {
      if (joined[air].size() != 1) {
        first_air_.at(row.row)->fail({},
                                     fmt::format("{} parts lead to {}", joined[air].size(), in_quotes(graph[air].id)),
                                     "exactly one part to each air place of a row");
      }
      row.last_parts.push_back(joined[air].front());
      double length = 0.0;
      Network::PlaceIndex at = air;
      Network::PartIndex part = joined[air].front();
      while (seen.insert(part).second) {
        length += take(row, part);
        at = network().from(part) == at ? network().to(part) : network().from(part);
        if (network().place(at).kind != PlaceKind::junction || joined[at].size() != 2) break;
        part = joined[at][0] == part ? joined[at][1] : joined[at][0];
      }
      run.push_back(length);
    }
    for (const double length : run) row.hose_length += length / static_cast<double>(run.size());
    const auto tagged = tagged_.find(row.row);
    if (tagged == tagged_.end()) return;
    for (const Network::PartIndex part : tagged->second) {
      if (seen.insert(part).second) row.hose_length += take(row, part);
    }
  }
  /// Counts a part as the row's; returns its length of hose [m].
  double take(RowPlumbing& row, Network::PartIndex index) {
    const Part& part = network().part(index).part;
    // What meters the row; a pulsed valve does where it has its orifice inside.
    const auto* pulsed = part.as<PulsedValve>();
    if (part.as<Orifice>() != nullptr || part.as<OrificePair>() != nullptr ||
        (pulsed != nullptr && pulsed->outlet_bore)) {
      row.orifices.push_back(index);
    }
    if (part.as<CheckValve>() != nullptr) row.check_valves.push_back(index);
    if (!hoses_.contains(index)) return 0.0;
    row.hoses.push_back(index);
    return *hose_length(index);
  }

  /// A fed place without a flow gets what the job asks for beyond the flows that are given.
  void set_fed_flow() {
    if (open_fed_.empty()) return;
    if (open_fed_.size() > 1) {
      top_.fail("place", fmt::format("{} fed places have no flow", open_fed_.size()), "at most one without a flow");
    }
    try {
      feed_wanted_flow(plumbing_, open_fed_.front(), job_);
    } catch (const InputError& error) {
      top_.fail("place", error.what_is_wrong(), error.allowed());
    }
  }

  const TomlTable& top_;
  const Job& job_;
  std::vector<TomlTable> places_, parts_;
  Plumbing plumbing_;
  std::map<int, RowPlumbing> rows_;
  std::map<int, double> x_;
  std::map<int, const TomlTable*> first_air_;
  std::map<int, std::vector<Network::PartIndex>> tagged_;
  std::set<Network::PartIndex> hoses_;
  std::set<Network::PlaceIndex> soils_;
  std::vector<Network::PlaceIndex> open_fed_;
};

Plumbing read_plumbing(const TomlTable& top, const Job& job) { return PlumbingReader(top, job).read(); }

}  // namespace file_detail

}  // namespace libflow
