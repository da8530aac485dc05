// SPDX-License-Identifier: MIT
#include <libflow/study/agronomy.hpp>

#include <algorithm>
#include <limits>
#include <string>
#include <utility>
#include <variant>

#include <fmt/core.h>

#include <libflow/fluid/nutrients.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/seed_limits.hpp>
#include <libflow/study/water_test.hpp>

namespace libflow {

namespace agronomy_detail {

/// A toolbar behind an ideal supply that gives the wanted flow, so that both liquids can have one pressure; a free form
/// as it is.
static Plumbing for_water(const Answer& answer) {
  const auto* given = std::get_if<Toolbar>(&answer.layout.plumbing);
  if (given == nullptr) return answer.plumbing;
  Toolbar toolbar = *given;
  toolbar.drive.reset();
  Job job = answer.layout.job;
  job.pressure.reset();
  return build_network(toolbar, job);
}

static void add_cautions(Agronomy& a) {
  const LiquidRecord& record = a.answer.layout.job.liquid.record();
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  std::string sources;
  double least = std::numeric_limits<double>::infinity();
  std::string soils;  // of the limits that are broken on some soil only
  bool anywhere = false;
  for (const SeedLimitCheck& c : a.limits) {
    if (!c.over) continue;
    if (applies(c, a.options)) {
      anywhere = true;
    } else if (const std::string soil(name_of(*c.limit.soil)); soils.find(soil) == std::string::npos) {
      soils += (soils.empty() ? "" : " or ") + soil;
    }
    least = std::min(least, si(c.limit.limit));
    const std::string key(c.limit.source);
    if (sources.find(key) == std::string::npos) sources += (sources.empty() ? "" : ", ") + key;
  }
  if (!sources.empty()) {
    a.cautions.push_back({"salt-with-seed", fmt::format("row {}", a.highest.row),
                          fmt::format("in the furrow with the seed this brings more N + K2O than a published limit "
                                      "allows{}: seed injury is likely. Place it beside and below the seed, or lower "
                                      "the rate",
                                      anywhere ? std::string() : " on " + soils + " soil"),
                          si(a.highest.rates.salt()), least, sources});
  }
  if (a.limits.empty()) {
    a.cautions.push_back({"no-seed-limit", std::string(name_of(a.options.crop)),
                          "no published limit for this crop at this row spacing is known here: take it that none may "
                          "lie with the seed until local guidance says otherwise"});
  }
  if (record.urea) {
    a.cautions.push_back({"urea-with-seed", a.answer.liquid.name,
                          "holds urea, which turns to ammonia: keep it out of the seed furrow whatever the salt limits "
                          "say",
                          none, none, "KSU"});
  }
  if (record.thiosulfate) {
    a.cautions.push_back({"thiosulfate-with-seed", a.answer.liquid.name,
                          "thiosulfate harms germinating seed: keep it out of the seed furrow; some count its sulfur "
                          "as salt as well",
                          none, none, "from memory"});
  }
  a.cautions.push_back({"label-decides", "in the furrow",
                        "limits differ between extension services and with moisture, variety and placement; the "
                        "product label and local guidance decide"});
  if (a.water.fails) {
    const bool tank = a.water.same_setting && !a.answer.plumbing.tanks.empty();
    a.cautions.push_back({"square-root-rule", a.answer.liquid.name,
                          std::string("a bar set with water by the square-root rule would be off by more than the "
                                      "tolerance with this product: the rule ") +
                              (tank ? "is for a held pressure, and a tank's own goes with the product's weight. "
                                    : "knows density only, and here viscosity counts. ") +
                              "Test with the product",
                          a.water.error, a.answer.layout.job.tolerance, "UNL16"});
  }
}

}  // namespace agronomy_detail

Agronomy agronomy(Layout layout, const AgronomyOptions& options) {
  const LiquidRecord record = layout.job.liquid.record();  // a copy: the layout moves on
  if (!record.analysis) {
    throw InputError(fmt::format("product '{}'", record.id), "its analysis is not known",
                     "a fertilizer of the catalogue, or analysis = \"N-P2O5-K2O\" in [product]");
  }
  Agronomy a;
  a.options = options;
  a.analysis = *record.analysis;
  check(a.analysis, fmt::format("product '{}', analysis", record.id));
  a.answer = main_job(std::move(layout));
  if (!a.answer.solution.usable()) throw IllPosedError(a.answer.solution.message);
  const Job& job = a.answer.layout.job;
  const Evenness& e = a.answer.evenness;
  const auto rates = [&](double rate) {
    return nutrient_rates(from_si<AreaRate>(rate), from_si<Density>(a.answer.liquid.density), a.analysis);
  };
  a.wanted = rates(si(job.rate));
  a.mean = rates(e.mean_rate);
  for (const RowResult& r : e.rows) {
    if (r.shut) continue;
    a.rows.push_back({r.row, rates(r.rate)});
    if (r.row == e.lowest_row) a.lowest = a.rows.back();
    if (r.row == e.highest_row) a.highest = a.rows.back();
    a.spacing = std::max(a.spacing, from_si<Length>(r.width));
  }
  const double salt_share = (a.analysis.n + a.analysis.k2o) / 100.0;
  for (const SeedLimit& limit : seed_limits_for(options.crop, a.spacing, options.soil)) {
    // Salt on the limit counts as within it; the slack is rounding of the unit.
    const bool over = si(a.highest.rates.salt()) > si(limit.limit) * (1.0 + 1e-9);
    const double most = salt_share > 0.0 ? si(limit.limit) / (salt_share * a.answer.liquid.density)
                                         : std::numeric_limits<double>::infinity();
    a.limits.push_back({limit, over, from_si<AreaRate>(most)});
  }
  for (const std::string& name : record.aliases) {
    if (const SeedSafety* safety = find_seed_safety(options.crop, name)) {
      a.product_at_ten_per_cent = seed_safe_rate(*safety, 0.10, options.furrow, a.spacing);
    }
  }
  a.water =
      water_test(agronomy_detail::for_water(a.answer), job, a.answer.liquid, Liquid().at(options.water_temperature));
  agronomy_detail::add_cautions(a);
  return a;
}

}  // namespace libflow
