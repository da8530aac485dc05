// SPDX-License-Identifier: MIT
/// @file
/// The figures of the built-in liquids, as published or recalled; each with source, confidence and remark.
///
/// No measured viscosity against temperature of a commercial fertilizer solution was found in print: every fertilizer
/// viscosity here is derived or from memory, with its band. A liquid without one (28-0-0-5S, 7-21-7, 4-10-10) keeps
/// none. Suspensions are left out: they thin with shear, and one viscosity cannot say how they flow.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <libflow/fluid/property.hpp>

namespace libflow::fluid_detail {

inline constexpr std::nullopt_t none = std::nullopt;

/// @param t_c  C, none where the source states none; value kg/m3
inline PropertyPoint density(std::optional<double> t_c, double value, Confidence confidence, std::string source,
                             std::string note = {}) {
  if (t_c) t_c = *t_c + 273.15;
  return {t_c, value, {}, {}, confidence, std::move(source), std::move(note)};
}
/// @param t_c  C; value and band mPa s
inline PropertyPoint viscosity(double t_c, double value, double low, double high, Confidence confidence,
                               std::string source, std::string note = {}) {
  return {t_c + 273.15, 1e-3 * value, 1e-3 * low, 1e-3 * high, confidence, std::move(source), std::move(note)};
}
inline PropertyPoint viscosity(double t_c, double value, Confidence confidence, std::string source,
                               std::string note = {}) {
  return {t_c + 273.15, 1e-3 * value, {}, {}, confidence, std::move(source), std::move(note)};
}
/// @param t_c  C
inline PropertyPoint salt_out(double t_c, Confidence confidence, std::string source, std::string note = {}) {
  return {{}, t_c + 273.15, {}, {}, confidence, std::move(source), std::move(note)};
}
/// A plain number.
inline PropertyPoint figure(double value, Confidence confidence, std::string source, std::string note = {}) {
  return {{}, value, {}, {}, confidence, std::move(source), std::move(note)};
}
inline PropertyPoint figure(double value, double low, double high, Confidence confidence, std::string source,
                            std::string note = {}) {
  return {{}, value, low, high, confidence, std::move(source), std::move(note)};
}
/// Density slope for a solution whose own is not published: that of 10-34-0 (-0.59) and of 28-0-0 (-0.65), rounded.
inline PropertyPoint typical_slope() {
  return figure(-0.6, Confidence::derived, "FFC", "kg/m3 per C, from figures of 10-34-0 and 28-0-0");
}

inline std::vector<LiquidRecord> catalogue_records() {
  using enum Confidence;
  std::vector<LiquidRecord> all;
  {
    LiquidRecord r;
    r.id = "water";
    r.name = "Water";
    r.aliases = {"h2o"};
    r.iapws_water = true;
    r.freezing = salt_out(0, published, "SR6-08");
    r.density = {density(0, 999.84, derived, "IAPWS"),  density(5, 999.96, derived, "IAPWS"),
                 density(10, 999.7, derived, "IAPWS"),  density(15, 999.1, derived, "IAPWS"),
                 density(20, 998.2, derived, "IAPWS"),  density(25, 997.04, derived, "IAPWS"),
                 density(30, 995.65, derived, "IAPWS"), density(40, 992.22, derived, "IAPWS")};
    r.viscosity = {viscosity(0, 1.7918, derived, "IAPWS"),  viscosity(5, 1.5182, derived, "IAPWS"),
                   viscosity(10, 1.3059, derived, "IAPWS"), viscosity(15, 1.1376, derived, "IAPWS"),
                   viscosity(20, 1.0016, derived, "IAPWS"), viscosity(25, 0.89, derived, "IAPWS"),
                   viscosity(30, 0.7972, derived, "IAPWS"), viscosity(40, 0.6527, derived, "IAPWS")};
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "uan28";
    r.name = "Urea-ammonium nitrate solution 28 % N";
    r.aliases = {"28-0-0", "uan 28", "28%", "urea ammonium nitrate 28"};
    r.analysis = Analysis{28, 0, 0, 0};
    r.urea = true;
    r.density = {density(-6.67, 1291.7, published, "FFC"),
                 density(-1.11, 1289.3, published, "FFC"),
                 density(4.44, 1286.9, published, "FFC"),
                 density(15.56, 1278.5, published, "FFC", "table gives no temperature; 60 F is the trade reference"),
                 density(26.67, 1270.2, published, "FFC", "quoted as about"),
                 density(16, 1283, published, "FERTMAN", "specific gravity 1.283 at 16 C"),
                 density(20, 1280, published, "PLSPEC", "+/-10"),
                 density(none, 1276.2, published, "UNL16")};
    r.viscosity = {viscosity(-10, 5.93, 4.15, 7.71, derived, "EST"), viscosity(-5, 5.01, 3.51, 6.51, derived, "EST"),
                   viscosity(0, 4.3, 3.01, 5.59, derived, "EST"),    viscosity(5, 3.74, 2.62, 4.86, derived, "EST"),
                   viscosity(10, 3.3, 2.31, 4.28, derived, "EST"),   viscosity(15, 2.93, 2.05, 3.81, derived, "EST"),
                   viscosity(20, 2.63, 1.84, 3.42, derived, "EST"),  viscosity(25, 2.38, 1.67, 3.1, derived, "EST"),
                   viscosity(30, 2.17, 1.52, 2.82, derived, "EST"),  viscosity(40, 1.84, 1.29, 2.39, derived, "EST")};
    r.salt_out = {salt_out(-18, published, "FERTMAN"), salt_out(-17, published, "PLSPEC"),
                  salt_out(-18.33, published, "FFC")};
    r.ph = figure(7.0, 6.5, 7.5, published, "PLSPEC, FFC", "FFC lists 7.2");
    r.salt_index = figure(63.0, memory, "MEM", "as in the table of J. J. Mortvedt, Calculating Salt Index");
    r.notes = {"by mass: ammonium nitrate 39.4 to 40 %, urea 30 to 30.6 %, water 30 % [SDS00, FERTMAN]"};
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "uan30";
    r.name = "Urea-ammonium nitrate solution 30 % N";
    r.aliases = {"30-0-0", "uan 30", "30%", "urea ammonium nitrate 30"};
    r.analysis = Analysis{30, 0, 0, 0};
    r.urea = true;
    r.density = {density(-6.67, 1315.7, published, "FFC"), density(-1.11, 1312.1, published, "FFC"),
                 density(16, 1303, published, "FERTMAN"), density(20, 1300, published, "PLSPEC", "+/-10"),
                 density(none, 1294.1, published, "OSU")};
    r.viscosity = {viscosity(-5, 6.14, 4.29, 7.98, derived, "EST"), viscosity(0, 5.25, 3.67, 6.82, derived, "EST"),
                   viscosity(5, 4.55, 3.19, 5.92, derived, "EST"),  viscosity(10, 4.0, 2.8, 5.19, derived, "EST"),
                   viscosity(15, 3.55, 2.48, 4.61, derived, "EST"), viscosity(20, 3.18, 2.22, 4.13, derived, "EST"),
                   viscosity(25, 2.87, 2.01, 3.73, derived, "EST"), viscosity(30, 2.61, 1.82, 3.39, derived, "EST"),
                   viscosity(40, 2.2, 1.54, 2.85, derived, "EST")};
    r.salt_out = {salt_out(-10, published, "FERTMAN"), salt_out(-9, published, "PLSPEC")};
    r.ph = figure(7.0, 6.5, 7.5, published, "PLSPEC");
    r.notes = {"by mass: ammonium nitrate 42 to 42.2 %, urea 32.8 to 33 %, water 25 % [SDS00, FERTMAN]"};
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "uan32";
    r.name = "Urea-ammonium nitrate solution 32 % N";
    r.aliases = {"32-0-0", "uan 32", "32%", "urea ammonium nitrate 32"};
    r.analysis = Analysis{32, 0, 0, 0};
    r.urea = true;
    r.density = {density(-6.67, 1338.5, published, "FFC", "below salt-out; tabulated all the same"),
                 density(-1.11, 1334.9, published, "FFC"),
                 density(15.56, 1325.3, published, "FFC", "table gives no temperature"),
                 density(16, 1320, published, "FERTMAN"),
                 density(20, 1320, published, "PLSPEC", "+/-10"),
                 density(none, 1325.3, published, "UNL16")};
    r.viscosity = {viscosity(0, 6.63, 4.64, 8.62, derived, "EST"),  viscosity(5, 5.73, 4.01, 7.44, derived, "EST"),
                   viscosity(10, 5.01, 3.5, 6.51, derived, "EST"),  viscosity(15, 4.42, 3.1, 5.75, derived, "EST"),
                   viscosity(20, 3.95, 2.76, 5.13, derived, "EST"), viscosity(25, 3.55, 2.49, 4.62, derived, "EST"),
                   viscosity(30, 3.22, 2.25, 4.19, derived, "EST"), viscosity(40, 2.7, 1.89, 3.51, derived, "EST")};
    r.salt_out = {salt_out(-2, published, "FERTMAN"), salt_out(0, published, "PLSPEC, MSU"),
                  salt_out(-2.22, published, "FFC")};
    r.ph = figure(7.0, 6.5, 7.5, published, "PLSPEC");
    r.salt_index = figure(71.1, memory, "MEM", "as in the table of J. J. Mortvedt, Calculating Salt Index");
    r.notes = {"by mass: ammonium nitrate 44 to 45 %, urea 35 %, water 20 % [SDS00, IPNI7]"};
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "uan_ats_28_5";
    r.name = "UAN with ammonium thiosulfate, 28-0-0-5S";
    r.aliases = {"28-0-0-5S", "28-0-0-5"};
    r.analysis = Analysis{28, 0, 0, 5};
    r.urea = true;
    r.thiosulfate = true;
    r.density = {density(none, 1330.1, published, "MSU")};
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "app_10_34_0";
    r.name = "Ammonium polyphosphate solution 10-34-0";
    r.aliases = {"10-34-0", "app 10-34-0", "ammonium polyphosphate 10-34-0"};
    r.analysis = Analysis{10, 34, 0, 0};
    r.density = {density(-6.67, 1409.2, published, "FFC"), density(-1.11, 1406.8, published, "FFC"),
                 density(15.56, 1396.0, published, "FFC", "table gives no temperature"),
                 density(none, 1390.0, published, "IPNI2", "1.39 kg/L"),
                 density(none, 1366.0, published, "UNL16", "same 11.4 in OSU and UGA26: conflicts with 11.6-11.65")};
    r.viscosity = {viscosity(0, 150, 80, 300, memory, "MEM", "low confidence"),
                   viscosity(10, 90, 50, 160, memory, "MEM", "low confidence"),
                   viscosity(24, 50, 30, 80, memory, "MEM", "low confidence; 75 F figure of the trade")};
    r.salt_out = {
        salt_out(-23.33, published, "FFC", "prints 10 or -10 F depending on the copy; -10 F in the clean one")};
    r.ph = figure(5.95, 5.9, 6.0, published, "IPNI2, FFC");
    r.salt_index = figure(20.0, published, "SALTIX");
    r.water_percent = figure(37, published, "FFC");
    r.notes = {"Ages in storage: polyphosphate turns to orthophosphate and metals drop out as sludge (supplier note)."};
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "app_11_37_0";
    r.name = "Ammonium polyphosphate solution 11-37-0";
    r.aliases = {"11-37-0", "app 11-37-0", "ammonium polyphosphate 11-37-0"};
    r.analysis = Analysis{11, 37, 0, 0};
    r.density = {density(none, 1425.9, published, "IPNI2", "1.43 kg/L"),
                 density(none, 1390.0, published, "UNL16", "conflicts")};
    r.viscosity = {viscosity(0, 300, 150, 600, memory, "MEM", "low confidence"),
                   viscosity(24, 80, 50, 130, memory, "MEM", "low confidence")};
    r.ph = figure(6.1, published, "IPNI2");
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "ats";
    r.name = "Ammonium thiosulfate solution 12-0-0-26S";
    r.aliases = {"12-0-0-26S", "12-0-0-26", "ammonium thiosulfate"};
    r.analysis = Analysis{12, 0, 0, 26};
    r.thiosulfate = true;
    r.density = {
        density(15.56, 1322.9, published, "FFC", "table gives no temperature"),
        density(none, 1378.0, published, "UNL16", "11.5 lb/gal, SG 1.38 in UNL, OSU and UGA; conflicts with 11.04")};
    r.viscosity = {viscosity(0, 9, 5, 15, memory, "MEM", "low confidence"),
                   viscosity(20, 5, 3, 8, memory, "MEM", "low confidence")};
    r.salt_out = {salt_out(-6.67, published, "FFC", "said to be below this")};
    r.ph = figure(7.4, published, "FFC");
    r.salt_index = figure(90.4, memory, "MEM", "as in the table of J. J. Mortvedt, Calculating Salt Index");
    r.water_percent = figure(40, published, "FFC");
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "potassium_thiosulfate";
    r.name = "Potassium thiosulfate solution 0-0-25-17S";
    r.aliases = {"0-0-25-17S", "0-0-25-17", "potassium thiosulfate"};
    r.analysis = Analysis{0, 0, 25, 17};
    r.thiosulfate = true;
    r.density = {density(20.0, 1461.9, memory, "MEM", "SG about 1.46")};
    r.viscosity = {viscosity(20, 5, 3, 9, memory, "MEM", "low confidence")};
    r.salt_out = {salt_out(-12, memory, "MEM")};
    r.ph = figure(7.75, 7.0, 8.5, memory, "MEM");
    r.salt_index = figure(64.0, memory, "MEM");
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "starter_9_18_9";
    r.name = "Low-salt starter type 9-18-9 (potassium from hydroxide)";
    r.aliases = {"9-18-9"};
    r.analysis = Analysis{9, 18, 9, 0};
    r.density = {density(15.56, 1330.1, memory, "MEM")};
    r.viscosity = {viscosity(20, 10, 5, 25, memory, "MEM", "low confidence")};
    r.salt_out = {salt_out(-6.67, memory, "MEM", "said to be below this")};
    r.ph = figure(7.0, 6.5, 7.5, memory, "MEM");
    r.salt_index = figure(16.7, published, "SALTIX");
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "starter_6_24_6";
    r.name = "Low-salt starter type 6-24-6";
    r.aliases = {"6-24-6"};
    r.analysis = Analysis{6, 24, 6, 0};
    r.density = {density(15.56, 1330.1, memory, "MEM")};
    r.viscosity = {viscosity(20, 12, 5, 30, memory, "MEM", "low confidence")};
    r.salt_index = figure(11.5, published, "SALTIX");
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "starter_3_18_18";
    r.name = "Low-salt starter type 3-18-18";
    r.aliases = {"3-18-18"};
    r.analysis = Analysis{3, 18, 18, 0};
    r.density = {density(15.56, 1378.0, memory, "MEM")};
    r.viscosity = {viscosity(20, 12, 5, 30, memory, "MEM", "low confidence")};
    r.salt_index = figure(8.5, memory, "MEM");
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "starter_7_21_7";
    r.name = "Starter 7-21-7 (potassium from chloride)";
    r.aliases = {"7-21-7"};
    r.analysis = Analysis{7, 21, 7, 0};
    r.density = {density(none, 1342.1, published, "FFC"), density(none, 1318.1, published, "UNL16")};
    r.salt_out = {salt_out(-6.67, published, "FFC")};
    r.ph = figure(6.5, published, "FFC");
    r.salt_index = figure(27.8, published, "SALTIX");
    r.water_percent = figure(48, published, "FFC");
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "starter_4_10_10";
    r.name = "Starter 4-10-10 (potassium from chloride)";
    r.aliases = {"4-10-10"};
    r.analysis = Analysis{4, 10, 10, 0};
    r.density = {density(none, 1234.2, published, "FFC")};
    r.salt_out = {salt_out(-7.78, published, "FFC")};
    r.ph = figure(6.5, published, "FFC");
    r.salt_index = figure(27.5, published, "SALTIX");
    r.water_percent = figure(63, published, "FFC");
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  {
    LiquidRecord r;
    r.id = "ams_40";
    r.name = "Ammonium sulfate solution 40 % (about 8-0-0-9S)";
    r.aliases = {"8-0-0-9S", "8-0-0-9", "ammonium sulfate 40"};
    r.analysis = Analysis{8.5, 0, 0, 9.7};
    r.density = {density(20, 1228, memory, "MEM")};
    r.viscosity = {viscosity(0, 4.27, derived, "LALI", "correlation valid 15-60 C, w<=0.463; extrapolated"),
                   viscosity(5, 3.71, derived, "LALI", "correlation valid 15-60 C, w<=0.463; extrapolated"),
                   viscosity(10, 3.26, derived, "LALI", "correlation valid 15-60 C, w<=0.463; extrapolated"),
                   viscosity(15, 2.89, derived, "LALI", "correlation valid 15-60 C, w<=0.463"),
                   viscosity(20, 2.59, derived, "LALI", "correlation valid 15-60 C, w<=0.463"),
                   viscosity(25, 2.33, derived, "LALI", "correlation valid 15-60 C, w<=0.463"),
                   viscosity(30, 2.12, derived, "LALI", "correlation valid 15-60 C, w<=0.463"),
                   viscosity(40, 1.78, derived, "LALI", "correlation valid 15-60 C, w<=0.463")};
    r.density_slope = typical_slope();
    all.push_back(std::move(r));
  }
  return all;
}

}  // namespace libflow::fluid_detail
