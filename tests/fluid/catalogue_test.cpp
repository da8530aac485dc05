// SPDX-License-Identifier: MIT
/// @file
/// The built-in liquids: every published figure is there with its source, conflicts show, nothing is invented.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <string_view>

#include <libflow/fluid.hpp>

namespace libflow {
namespace catalogue_test {

using namespace libflow::units;

const Caution* find_caution(const LiquidState& state, std::string_view code) {
  for (const Caution& c : state.cautions) {
    if (c.code == code) return &c;
  }
  return nullptr;
}

/// All keys of a source field exist; "FFC, MSU" names two.
bool known_source(const std::string& keys) {
  std::istringstream in(keys);
  std::string key;
  bool any = false;
  while (std::getline(in, key, ',')) {
    key.erase(0, key.find_first_not_of(' '));
    if (find_source(key) == nullptr) return false;
    any = true;
  }
  return any;
}

// Densities in lb/gal as each source prints them; the source's key is in the row, its title in sources(). 0.005 lb/gal
// is half the last printed digit, 0.6 kg/m3. FERTMAN, PLSPEC and IPNI2 print kg/L (IPNI2 with two decimals).
TEST(Catalogue, EveryPublishedDensityIsThere) {
  struct Row {
    const char* liquid;
    std::optional<double> t_c;
    double value;
    bool lb_gal;
    const char* source;
  };
  constexpr std::nullopt_t none = std::nullopt;
  const Row rows[] = {{"28-0-0", -6.67, 10.78, true, "FFC"},
                      {"28-0-0", -1.11, 10.76, true, "FFC"},
                      {"28-0-0", 4.44, 10.74, true, "FFC"},
                      {"28-0-0", 15.56, 10.67, true, "FFC"},
                      {"28-0-0", 26.67, 10.60, true, "FFC"},
                      {"28-0-0", 16, 1283, false, "FERTMAN"},
                      {"28-0-0", 20, 1280, false, "PLSPEC"},
                      {"28-0-0", none, 10.65, true, "UNL16"},
                      {"30-0-0", -6.67, 10.98, true, "FFC"},
                      {"30-0-0", -1.11, 10.95, true, "FFC"},
                      {"30-0-0", 16, 1303, false, "FERTMAN"},
                      {"30-0-0", 20, 1300, false, "PLSPEC"},
                      {"30-0-0", none, 10.80, true, "OSU"},
                      {"32-0-0", -6.67, 11.17, true, "FFC"},
                      {"32-0-0", -1.11, 11.14, true, "FFC"},
                      {"32-0-0", 15.56, 11.06, true, "FFC"},
                      {"32-0-0", 16, 1320, false, "FERTMAN"},
                      {"32-0-0", 20, 1320, false, "PLSPEC"},
                      {"32-0-0", none, 11.06, true, "UNL16"},
                      {"28-0-0-5S", none, 11.1, true, "MSU"},
                      {"10-34-0", -6.67, 11.76, true, "FFC"},
                      {"10-34-0", -1.11, 11.74, true, "FFC"},
                      {"10-34-0", 15.56, 11.65, true, "FFC"},
                      {"10-34-0", none, 11.6, true, "IPNI2"},
                      {"10-34-0", none, 11.4, true, "UNL16"},
                      {"11-37-0", none, 11.9, true, "IPNI2"},
                      {"11-37-0", none, 11.6, true, "UNL16"},
                      {"12-0-0-26S", 15.56, 11.04, true, "FFC"},
                      {"12-0-0-26S", none, 11.5, true, "UNL16"},
                      {"7-21-7", none, 11.2, true, "FFC"},
                      {"7-21-7", none, 11.0, true, "UNL16"},
                      {"4-10-10", none, 10.3, true, "FFC"},
                      // From memory, no document seen:
                      {"0-0-25-17S", 20, 12.2, true, "MEM"},
                      {"9-18-9", 15.56, 11.1, true, "MEM"},
                      {"6-24-6", 15.56, 11.1, true, "MEM"},
                      {"3-18-18", 15.56, 11.5, true, "MEM"},
                      {"8-0-0-9S", 20, 1228, false, "MEM"}};
  for (const Row& row : rows) {
    const double rho = row.lb_gal ? row.value * si(lb_per_gal) : row.value;
    int found = 0;
    for (const PropertyPoint& p : find_liquid(row.liquid).record().density) {
      const bool same_t = row.t_c.has_value() == p.temperature.has_value() &&
                          std::abs(p.temperature.value_or(273.15) - 273.15 - row.t_c.value_or(0)) < 1e-9;
      if (!same_t || p.source != row.source || std::abs(p.value - rho) > 0.6) continue;
      ++found;
      EXPECT_EQ(p.confidence, p.source == "MEM" ? Confidence::memory : Confidence::published);
    }
    EXPECT_EQ(found, 1) << row.liquid << " " << row.value << " " << row.source;
  }
  std::size_t figures = 0;
  for (const Liquid& liquid : catalogue()) {
    if (liquid.id() != "water") figures += liquid.record().density.size();
  }
  EXPECT_EQ(figures, std::size(rows));
}

// The three disagreements in print that the trade meets: 10-34-0, 11-37-0 and 12-0-0-26S. Both values and both sources
// stand in the caution; the first listed published source is the default.
TEST(Catalogue, ConflictingDensitiesShow) {
  struct Row {
    const char* liquid;
    double used_lb_gal, other_lb_gal;
    const char* used_source;
    const char* other_source;
    double tol;  // lb/gal; the 10-34-0 default is a fitted line, not a single figure
  };
  const Row rows[] = {{"10-34-0", 11.65, 11.4, "FFC", "UNL16", 0.01},
                      {"11-37-0", 11.9, 11.6, "IPNI2", "UNL16", 0.005},
                      {"12-0-0-26S", 11.04, 11.5, "FFC", "UNL16", 0.005},
                      {"7-21-7", 11.2, 11.0, "FFC", "UNL16", 0.005}};
  for (const Row& row : rows) {
    Liquid liquid = find_liquid(row.liquid);
    if (!liquid.has_viscosity()) {
      LiquidRecord record = liquid.record();
      record.viscosity.push_back({293.15, 0.01, {}, {}, Confidence::user, "user", ""});
      liquid = Liquid(record);
    }
    const LiquidState state = liquid.at(fahrenheit(60));
    const Caution* caution = find_caution(state, "densities-conflict");
    ASSERT_NE(caution, nullptr) << row.liquid;
    EXPECT_NEAR(caution->value / si(lb_per_gal), row.used_lb_gal, row.tol) << row.liquid;
    EXPECT_NEAR(caution->limit / si(lb_per_gal), row.other_lb_gal, 0.005) << row.liquid;
    for (const char* key : {row.used_source, row.other_source}) {
      EXPECT_NE(caution->source.find(key), std::string::npos) << row.liquid << " " << key;
      EXPECT_NE(caution->text.find(key), std::string::npos) << caution->text;
    }
    EXPECT_LE(*state.density_low, std::min(caution->value, caution->limit) + 1e-9);
    EXPECT_GE(*state.density_high, std::max(caution->value, caution->limit) - 1e-9);
  }
  EXPECT_EQ(find_caution(find_liquid("28-0-0").at(celsius(20)), "densities-conflict"), nullptr);
}

// Slopes of FFC, "Estimated Physical Characteristics of Fertilizer Material": 28-0-0 10.78 lb/gal at 20 F and 10.60 at
// 80 F, 10-34-0 11.76 at 20 F and 11.65 at 60 F (derived: -0.65 and -0.6 kg/m3 per C, printed digit 0.05; the fit over
// all sources may move it by another 0.1).
TEST(Catalogue, DensityFallsWithTemperatureAsPublished) {
  const auto slope = [](const char* name) {
    const Liquid& liquid = find_liquid(name);
    return (si(liquid.density_at(celsius(25))) - si(liquid.density_at(celsius(-5)))) / 30.0;
  };
  EXPECT_NEAR(slope("28-0-0"), -0.65, 0.15);
  EXPECT_NEAR(slope("30-0-0"), -0.65, 0.15);
  EXPECT_NEAR(slope("32-0-0"), -0.65, 0.15);
  EXPECT_NEAR(slope("10-34-0"), -0.6, 0.05);
  EXPECT_NEAR(slope("11-37-0"), -0.6, 1e-9);
}

// The default lies within 0.5 % of every published figure of the urea-ammonium nitrates that states a temperature.
TEST(Catalogue, FittedLineStaysWithTheFigures) {
  for (const char* name : {"28-0-0", "30-0-0", "32-0-0"}) {
    const Liquid& liquid = find_liquid(name);
    for (const PropertyPoint& p : liquid.record().density) {
      if (!p.temperature) continue;
      EXPECT_NEAR(si(liquid.density_at(from_si<Temperature>(*p.temperature))) / p.value, 1.0, 0.005) << name;
    }
  }
}

// Each liquid's curve passes through its own points (source and confidence in the record), falls with temperature, and
// carries the points' band. Viscosities in print: none found; all are derived or from memory.
TEST(Catalogue, ViscosityCurves) {
  for (const Liquid& liquid : catalogue()) {
    if (!liquid.has_viscosity() || liquid.id() == "water") continue;
    for (const PropertyPoint& p : liquid.record().viscosity) {
      const LiquidState state = liquid.at(from_si<Temperature>(*p.temperature));
      EXPECT_NEAR(state.viscosity / p.value, 1.0, 1e-12) << liquid.id();
      EXPECT_NE(state.viscosity_confidence, Confidence::published) << liquid.id();
      EXPECT_EQ(state.viscosity_confidence, p.confidence);
      EXPECT_EQ(state.viscosity_low.has_value(), p.low.has_value());
      if (p.low) {
        EXPECT_NEAR(*state.viscosity_low / *p.low, 1.0, 1e-12) << liquid.id();
      }
      if (p.high) {
        EXPECT_NEAR(*state.viscosity_high / *p.high, 1.0, 1e-12) << liquid.id();
      }
      const bool memory = p.confidence == Confidence::memory;
      const Caution* caution = find_caution(state, memory ? "unverified-viscosity" : "estimated-viscosity");
      ASSERT_NE(caution, nullptr) << liquid.id();
      if (p.high) {
        EXPECT_DOUBLE_EQ(caution->limit, *state.viscosity_high);
      }
    }
    double before = 1e9;
    for (double c = -40; c <= 100; c += 1) {
      const double mu = si(liquid.viscosity_at(celsius(c)));
      EXPECT_LT(mu, before) << liquid.id() << " " << c;
      before = mu;
    }
  }
}

// From memory, no document seen: 10-34-0 50 (30 to 80) mPa s at 24 C; derived estimate: 28-0-0 2.63 (+-30 %) at 20 C.
TEST(Catalogue, ViscosityFigures) {
  const LiquidState app = find_liquid("10-34-0").at(celsius(24));
  EXPECT_NEAR(app.viscosity, 0.050, 1e-12);
  EXPECT_NEAR(*app.viscosity_low, 0.030, 1e-12);
  EXPECT_NEAR(*app.viscosity_high, 0.080, 1e-12);
  EXPECT_NE(find_caution(app, "unverified-viscosity")->text.find("30 cP to 80 cP"), std::string::npos);
  const LiquidState uan = find_liquid("28-0-0").at(celsius(20));
  EXPECT_NEAR(uan.viscosity, 2.63e-3, 1e-12);
  EXPECT_EQ(uan.viscosity_confidence, Confidence::derived);
}

TEST(Catalogue, NoViscosityIsNotInvented) {
  for (const char* name : {"28-0-0-5S", "7-21-7", "4-10-10"}) {
    const Liquid& liquid = find_liquid(name);
    EXPECT_FALSE(liquid.has_viscosity()) << name;
    EXPECT_GT(si(liquid.density_at(celsius(15))), 1200) << name;
    EXPECT_THROW((void)liquid.at(celsius(15)), InputError) << name;
    const Liquid given = liquid.with_viscosity(12.0 * cP, celsius(15));
    EXPECT_NEAR(given.at(celsius(15)).viscosity, 0.012, 1e-12);
    EXPECT_EQ(given.at(celsius(15)).viscosity_confidence, Confidence::user);
  }
}

// Salt-out of 32-0-0: -2 C (UNIDO/IFDC Fertilizer Manual 1998, quoted), 0 C (Polish specification; Mississippi State
// P1466), 28 F (FFC). The warmest figure counts. 28-0-0: -17 C at the warmest.
TEST(Catalogue, SaltOut) {
  EXPECT_EQ(find_caution(find_liquid("32-0-0").at(celsius(0.5)), "below-salt-out"), nullptr);
  const LiquidState cold = find_liquid("32-0-0").at(celsius(-1));
  const Caution* caution = find_caution(cold, "below-salt-out");
  ASSERT_NE(caution, nullptr);
  EXPECT_DOUBLE_EQ(caution->limit, 273.15);
  for (const char* key : {"FERTMAN", "PLSPEC", "MSU", "FFC"}) {
    EXPECT_NE(caution->source.find(key), std::string::npos) << key;
  }
  EXPECT_EQ(find_caution(find_liquid("28-0-0").at(celsius(-16)), "below-salt-out"), nullptr);
  EXPECT_NE(find_caution(find_liquid("28-0-0").at(celsius(-17.5)), "below-salt-out"), nullptr);
}

// Salt index from the retailer's list of 2012 (SALTIX): 6-24-6 11.5, 9-18-9 16.7, 10-34-0 20.0, 7-21-7 27.8, 4-10-10
// 27.5; the rest from memory. pH of 10-34-0: 5.9 to 6.0 (IPNI No. 2, FFC).
TEST(Catalogue, SaltIndexAndAcidity) {
  EXPECT_DOUBLE_EQ(find_liquid("6-24-6").record().salt_index->value, 11.5);
  EXPECT_DOUBLE_EQ(find_liquid("9-18-9").record().salt_index->value, 16.7);
  EXPECT_DOUBLE_EQ(find_liquid("10-34-0").record().salt_index->value, 20.0);
  EXPECT_DOUBLE_EQ(find_liquid("7-21-7").record().salt_index->value, 27.8);
  EXPECT_DOUBLE_EQ(find_liquid("4-10-10").record().salt_index->value, 27.5);
  EXPECT_EQ(find_liquid("6-24-6").record().salt_index->confidence, Confidence::published);
  EXPECT_EQ(find_liquid("28-0-0").record().salt_index->confidence, Confidence::memory);
  EXPECT_DOUBLE_EQ(*find_liquid("10-34-0").record().ph->low, 5.9);
  EXPECT_DOUBLE_EQ(*find_liquid("10-34-0").record().ph->high, 6.0);
  EXPECT_DOUBLE_EQ(find_liquid("12-0-0-26S").analysis()->s, 26);
  EXPECT_DOUBLE_EQ(find_liquid("9-18-9").analysis()->p2o5, 18);
}

// A weighed density replaces the default, keeps the published slope, and leaves the published figures in sight.
TEST(Catalogue, WeighedDensity) {
  const Liquid& app = find_liquid("10-34-0");
  const Liquid weighed = app.with_density(11.5 * lb_per_gal, celsius(20));
  const LiquidState state = weighed.at(celsius(20));
  EXPECT_NEAR(state.density, 11.5 * si(lb_per_gal), 1e-9);
  EXPECT_EQ(state.density_confidence, Confidence::user);
  EXPECT_EQ(find_caution(state, "densities-conflict"), nullptr);
  EXPECT_EQ(find_caution(state, "weighed-density-differs"), nullptr);
  EXPECT_EQ(weighed.record().density.size(), app.record().density.size() + 1);
  EXPECT_NEAR(si(weighed.density_at(celsius(0))) / state.density,
              si(app.density_at(celsius(0))) / si(app.density_at(celsius(20))), 1e-12);
  const Liquid again = weighed.with_density(11.6 * lb_per_gal);  // no temperature: 60 F
  EXPECT_EQ(again.record().density.size(), app.record().density.size() + 1);
  EXPECT_NEAR(si(again.density_at(fahrenheit(60))), 11.6 * si(lb_per_gal), 1e-9);
  // 28-0-0 does not weigh 11.65 lb/gal: another product, or a bad weighing.
  EXPECT_NE(
      find_caution(find_liquid("28-0-0").with_density(11.65 * lb_per_gal).at(celsius(20)), "weighed-density-differs"),
      nullptr);
}

// One measured viscosity keeps its value and takes its shape from the figures that were there.
TEST(Catalogue, MeasuredViscosity) {
  const Liquid& app = find_liquid("10-34-0");
  const Liquid measured = app.with_viscosity(60.0 * cP, celsius(10));
  EXPECT_NEAR(measured.at(celsius(10)).viscosity, 0.060, 1e-12);
  EXPECT_EQ(find_caution(measured.at(celsius(10)), "unverified-viscosity"), nullptr);
  EXPECT_EQ(find_caution(measured.at(celsius(10)), "one-point-viscosity"), nullptr);
  const LiquidState cold = measured.at(celsius(0));
  EXPECT_NEAR(cold.viscosity, 0.060 * 150 / 90, 1e-12);  // 10-34-0 from memory: 150 at 0 C, 90 at 10 C
  EXPECT_NE(find_caution(cold, "one-point-viscosity"), nullptr);
  const Liquid two = app.with_viscosity({{60.0 * cP, celsius(10)}, {35.0 * cP, celsius(25)}});
  EXPECT_NEAR(two.at(celsius(25)).viscosity, 0.035, 1e-12);
  EXPECT_EQ(two.at(celsius(25)).viscosity_source, "user");
}

// Water's figures at 0 to 40 C as tabulated (derived from IAPWS; density by Kell's polynomial, rounded): the formulas
// agree within half a printed digit plus 0.005 kg/m3 between Kell and SR6-08, and 0.003 % between the
// viscosities of R12-08 (tabulated) and SR6-08.
TEST(Catalogue, WaterTableAgreesWithTheFormulas) {
  const Liquid& water = find_liquid("water");
  ASSERT_EQ(water.record().density.size(), 8U);
  for (const PropertyPoint& p : water.record().density) {
    EXPECT_NEAR(water.at(from_si<Temperature>(*p.temperature)).density, p.value, 0.01) << *p.temperature;
  }
  for (const PropertyPoint& p : water.record().viscosity) {
    EXPECT_NEAR(water.at(from_si<Temperature>(*p.temperature)).viscosity, p.value, 0.5e-7 + 3e-5 * p.value);
  }
}

// Water's vapour pressure stands for every liquid, as an upper bound.
TEST(Catalogue, VapourPressureIsThatOfWater) {
  const double bound = Liquid().at(celsius(20)).vapour_pressure;
  EXPECT_NEAR(bound, 2339.1937, 5e-5);  // IAPWS SR1-86(1992) at 20 C
  EXPECT_DOUBLE_EQ(find_liquid("10-34-0").at(celsius(20)).vapour_pressure, bound);
  EXPECT_DOUBLE_EQ(si(find_liquid("28-0-0").vapour_pressure_at(celsius(20))), bound);
}

TEST(Catalogue, NamesAreUniqueAndTolerant) {
  std::set<std::string> seen;
  for (const Liquid& liquid : catalogue()) {
    std::set<std::string> own{fluid_detail::plain_name(liquid.id())};
    for (const std::string& alias : liquid.aliases()) own.insert(fluid_detail::plain_name(alias));
    for (const std::string& name : own) EXPECT_TRUE(seen.insert(name).second) << name;
    EXPECT_EQ(&find_liquid(liquid.id()), &liquid);
    for (const std::string& alias : liquid.aliases()) EXPECT_EQ(&find_liquid(alias), &liquid) << alias;
  }
  for (const char* name : {"UAN 28", "uan-28", "Uan_28", " uan28 ", "28 0 0", "28\u20130\u20130"}) {
    EXPECT_EQ(find_liquid(name).id(), "uan28") << name;
  }
  EXPECT_EQ(find_liquid("10 34 0").id(), "app_10_34_0");
  EXPECT_THROW((void)find_liquid("1034-0"), InputError);
}

// Dashes of any length part the numbers of a grade (U+2010 to U+2015); other signs that begin with the same bytes do
// not.
TEST(Catalogue, OnlyDashesCountAsDashes) {
  for (const char* dash : {"\u2010", "\u2011", "\u2012", "\u2013", "\u2014", "\u2015"}) {
    EXPECT_EQ(find_liquid(std::string("10") + dash + "34" + dash + "0").id(), "app_10_34_0");
  }
  for (const char* other : {"\u20AC", "\u200A", "\u200F", "\u2016", "\u2026", "\u2C10"}) {
    EXPECT_THROW((void)find_liquid(std::string("10") + other + "34" + other + "0"), InputError);
  }
}

TEST(Catalogue, UnknownNameListsTheLiquids) {
  for (const char* name : {"uan29", "10-43-0"}) {
    try {
      (void)find_liquid(name);
      ADD_FAILURE() << name;
    } catch (const InputError& e) {
      EXPECT_EQ(e.where(), "liquid");
      EXPECT_NE(e.allowed().find("app_10_34_0 (10-34-0)"), std::string::npos);
      EXPECT_FALSE(e.nearest().empty()) << name;
    }
  }
  EXPECT_THROW((void)find_liquid(""), InputError);
  EXPECT_THROW((void)find_liquid("\xE2\x80"), InputError);
}

TEST(Catalogue, EverySourceResolves) {
  std::set<std::string_view> keys;
  for (const Citation& one : sources()) {
    EXPECT_TRUE(keys.insert(one.key).second) << one.key;
    EXPECT_FALSE(one.title.empty() || one.where.empty()) << one.key;
  }
  for (const Liquid& liquid : catalogue()) {
    const LiquidRecord& r = liquid.record();
    for (const auto* points : {&r.density, &r.viscosity, &r.salt_out}) {
      for (const PropertyPoint& p : *points) EXPECT_TRUE(known_source(p.source)) << liquid.id() << " " << p.source;
    }
    for (const auto* p : {&r.freezing, &r.density_slope, &r.ph, &r.salt_index, &r.water_percent}) {
      if (*p) {
        EXPECT_TRUE(known_source((*p)->source)) << liquid.id() << " " << (*p)->source;
      }
    }
    if (liquid.has_viscosity()) {
      EXPECT_TRUE(known_source(liquid.at(celsius(20)).density_source)) << liquid.id();
      EXPECT_TRUE(known_source(liquid.at(celsius(20)).viscosity_source)) << liquid.id();
    }
  }
}

TEST(Catalogue, ASourceThatIsNotThereIsNone) { EXPECT_EQ(find_source("NOBODY"), nullptr); }

}  // namespace catalogue_test
}  // namespace libflow
