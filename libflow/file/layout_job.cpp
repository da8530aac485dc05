// SPDX-License-Identifier: MIT
#include <libflow/file/layout_job.hpp>

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <libflow/file/toml_table.hpp>
#include <libflow/fluid/catalogue.hpp>
#include <libflow/fluid/nutrients.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

namespace file_detail {

/// The liquid that [job] product names.
static Liquid named_liquid(const TomlTable& job) {
  const std::string name = job.text("product");  // what is wrong with a text has its line already
  return placed(job.where("product"), [&] { return find_liquid(name); });
}

/// The liquid that [job] product and [product] speak of.
static Liquid read_liquid(const TomlTable& top, const TomlTable& job) {
  if (!top.has("product")) return named_liquid(job);
  const TomlTable own = top.table("product", layout_keys::product);
  std::vector<MeasuredDensity> density;
  if (own.is_list("density")) {
    for (const auto& [t, rho] : own.pairs<Temperature, Density>("density", liquid_temperature, liquid_density)) {
      density.push_back({rho, t});
    }
    if (density.empty()) own.fail("density", "the list is empty", "at least one [temperature, density]");
  } else if (own.has("density")) {
    density.push_back({own.quantity<Density>("density", liquid_density), std::nullopt});
  }
  std::vector<MeasuredViscosity> viscosity;
  if (own.has("viscosity")) {
    for (const auto& [t, mu] : own.pairs<Temperature, Viscosity>("viscosity", liquid_temperature, liquid_viscosity)) {
      viscosity.push_back({mu, t});
    }
    if (viscosity.empty()) own.fail("viscosity", "the list is empty", "at least one [temperature, viscosity]");
  }
  std::optional<Analysis> analysis;
  if (own.has("analysis")) analysis = parse_analysis(own.text("analysis"), own.where("analysis"));
  const auto with_analysis = [&](const Liquid& liquid) {
    if (!analysis) return liquid;
    LiquidRecord record = liquid.record();
    record.analysis = analysis;
    return Liquid(std::move(record));
  };
  const std::optional<std::string> name = own.optional_text("name");
  if (name) {
    own.need("density");
    own.need("viscosity");
    if (job.has("product") && job.text("product") != *name) {
      throw InputError(job.where("product"),
                       fmt::format("{} is not the liquid that [product] makes", in_quotes(job.text("product"))),
                       fmt::format("\"{}\", or a [product] without name", *name), *name);
    }
    return placed(own.where(), [&] { return with_analysis(Liquid::from_points(*name, density, viscosity)); });
  }
  if (density.empty() && viscosity.empty() && !analysis) {
    own.fail({}, "holds no figure", "density, viscosity or both");
  }
  const Liquid known = named_liquid(job);
  return placed(own.where(), [&] {
    const Liquid weighed = density.empty() ? known : known.with_density(density);
    return with_analysis(viscosity.empty() ? weighed : weighed.with_viscosity(viscosity));
  });
}

Job read_job(const TomlTable& top) {
  const TomlTable table = top.table("job", layout_keys::job);
  Job job;
  job.liquid = read_liquid(top, table);
  job.temperature = table.quantity<Temperature>("temperature", liquid_temperature);
  if (!job.liquid.has_viscosity()) {
    // The product is at fault, not the temperature that is asked for next.
    placed(table.where("product"), [&] { return job.liquid.at(job.temperature); });
  }
  // A liquid knows its own limits (water freezes); ask it here, where the line is known.
  placed(table.where("temperature"), [&] { return job.liquid.at(job.temperature); });
  job.rate = table.quantity<AreaRate>("rate", layout_limits::rate);
  job.speed = table.quantity<Speed>("speed", layout_limits::speed);
  if (table.has("tolerance")) job.tolerance = table.fraction("tolerance", layout_limits::tolerance);
  job.pressure = table.optional_quantity<Pressure>("pressure", layout_limits::pressure);
  job.pump_limit = table.optional_quantity<Pressure>("pump_limit", layout_limits::pressure);
  if (table.has("turn") || table.has("turn_radius")) {
    const double side = table.choice<double>("turn", {{"left", 1.0}, {"right", -1.0}});
    job.turn_radius = side * table.quantity<Length>("turn_radius", layout_limits::turn_radius);
  }
  return job;
}

}  // namespace file_detail

}  // namespace libflow
