// SPDX-License-Identifier: MIT
/// @file
/// The drive in a layout file: what is read, and what is refused with its line and name.
#include <gtest/gtest.h>

#include <filesystem>
#include <string>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/layout_file.hpp>

namespace libflow {
namespace layout_drive_test {

using namespace units;

const std::string drive_head = R"([job]
product = "water"
temperature = "60 F"
rate = "10 gal/ac"
speed = "5 mph"
[toolbar]
rows = 4
spacing = "30 in"
[[manifold]]
[hose]
bore = "3/8 in"
length = "8 ft"
[orifice]
bore = "0.06 in"
)";
const std::string drive_tank = R"([[tank]]
shape = "upright_box"
length = "1 m"
width = "1 m"
height = "1 m"
level = "0.5 m"
)";
const std::string drive_pump = R"([pump]
kind = "centrifugal_pump"
shutoff = "45 psi"
free_flow = "30 gpm"
)";
const std::string drive_delivery = R"([delivery]
length = "3 m"
)";
const std::string drive_good =
    drive_head + "[drive]\ncontrol = \"pump_speed\"\n" + drive_tank + drive_pump + drive_delivery;

Drive read_one_drive(const std::string& text) {
  const Layout layout = parse_layout(text, "a.toml");
  return *std::get<Toolbar>(layout.plumbing).drive;
}
std::string drive_swapped(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}
void drive_refused(const std::string& text, const std::string& where, const std::string& allowed = {}) {
  SCOPED_TRACE(where);
  try {
    (void)parse_layout(text, "a.toml");
    ADD_FAILURE() << "nothing thrown";
  } catch (const InputError& e) {
    EXPECT_EQ(e.where().rfind("a.toml:", 0), 0U) << e.what();
    EXPECT_NE(e.where().find(where), std::string::npos) << e.what();
    EXPECT_NE(e.allowed().find(allowed), std::string::npos) << e.what();
    EXPECT_FALSE(e.allowed().empty()) << e.what();
  }
}

TEST(LayoutDrive, ExampleIsRead) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "pump_and_tank_bar.toml");
  const Toolbar& bar = std::get<Toolbar>(layout.plumbing);
  ASSERT_TRUE(bar.drive);
  const Drive& d = *bar.drive;
  EXPECT_EQ(d.control, DriveControl::pump_speed);
  ASSERT_EQ(d.tanks.size(), 1U);
  EXPECT_DOUBLE_EQ(si(d.tanks[0].level), si(2.0 * ft));
  EXPECT_DOUBLE_EQ(si(d.tanks[0].height), si(3.0 * ft));
  EXPECT_DOUBLE_EQ(si(d.tanks[0].tank.height()), si(4.0 * ft));
  EXPECT_DOUBLE_EQ(si(d.suction.length), si(8.0 * ft));
  EXPECT_NEAR(si(*d.suction_limit), si(-5.0 * psi), 1e-9);
  const auto& pump = std::get<PumpCurve>(d.pump);
  ASSERT_EQ(pump.points.size(), 5U);
  EXPECT_NEAR(si(pump.points[3].gain), si(44.0 * psi), 1e-6);
  EXPECT_DOUBLE_EQ(si(*pump.points[4].suction_head), si(10.0 * ft));
  EXPECT_DOUBLE_EQ(si(d.pump_height), si(2.0 * ft));
  EXPECT_NEAR(si(d.relief->set), si(65.0 * psi), 1e-6);
  EXPECT_DOUBLE_EQ(si(d.agitation->bore), 0.1875 * si(inch));
  EXPECT_DOUBLE_EQ(si(d.line_strainer->opening), 0.30e-3);  // 50 mesh
  EXPECT_NEAR(si(d.meter->least), si(0.8 * gpm), 1e-12);
  EXPECT_NEAR(si(d.section_valve->kv), si(Valve::kv_from_cv(30.0 * gpm)), 1e-12);
  EXPECT_NEAR(si(*d.delivery.rating), si(150.0 * psi), 1e-6);
  EXPECT_NEAR(si(*bar.orifice_least), si(5.0 * psi), 1e-9);
  EXPECT_NEAR(si(*bar.orifice_most), si(45.0 * psi), 1e-9);
  EXPECT_EQ(layout.range.speeds.size(), 5U);
  EXPECT_EQ(layout.range.rates.size(), 3U);
}

TEST(LayoutDrive, EveryControlAndPumpIsRead) {
  EXPECT_EQ(read_one_drive(drive_good).control, DriveControl::pump_speed);
  const auto with = [&](const std::string& control, const std::string& more) {
    return read_one_drive(drive_swapped(drive_good, "pump_speed", control) + more);
  };
  const std::string valve = "cv = \"12 gpm\"\nbore = \"3/4 in\"\n";
  EXPECT_TRUE(with("bypass", "[bypass]\n" + valve).bypass);
  EXPECT_TRUE(with("throttle", "[throttle]\n" + valve).throttle);
  const Drive pulse = with("pulse", "[pulse]\nrated_flow = \"10 gpm\"\nrated_loss = \"5 psi\"\nfrequency = 15\n");
  EXPECT_EQ(pulse.pulse->frequency, 15.0);
  EXPECT_EQ(setting_range(pulse).low, 0.2);
  const Drive relief = with("relief", "[relief]\nset = \"60 psi\"\npassage_bore = \"10 mm\"\n");
  EXPECT_NEAR(setting_range(relief).high, si(60.0 * psi), 1e-6);
  EXPECT_EQ(with("regulator", "[regulator]\npassage_bore = \"10 mm\"\n").control, DriveControl::regulator);

  const auto pumped = [&](const std::string& pump) {
    return read_one_drive(drive_swapped(drive_good, drive_pump, "[pump]\n" + pump)).pump;
  };
  const std::string slip = "slip_flow = \"0.2 gpm\"\nslip_gain = \"40 psi\"\nmax_pressure = \"90 psi\"\n";
  const auto positive =
      std::get<PositivePump>(pumped("kind = \"positive_pump\"\ndisplacement = \"60 mL\"\nrpm = 540\n" + slip));
  EXPECT_EQ(positive.rpm, 540.0);
  const auto ground = std::get<GroundDrivenPump>(
      pumped("kind = \"ground_driven_pump\"\ndisplacement = \"1 L\"\ndistance = \"10 m\"\n" + slip));
  EXPECT_NEAR(si(ground.ground_speed), si(5.0 * mph), 1e-12);
}

TEST(LayoutDrive, SettingAndItsRangeAreSharesOrPressures) {
  const std::string share = drive_swapped(drive_good, "\"pump_speed\"",
                                          "\"pump_speed\"\nleast = \"20 %\"\nmost = \"110 %\"\nsetting = \"60 %\"");
  const Drive d = read_one_drive(share);
  EXPECT_DOUBLE_EQ(*d.setting, 0.6);
  EXPECT_DOUBLE_EQ(setting_range(d).low, 0.2);
  EXPECT_DOUBLE_EQ(setting_range(d).high, 1.1);
  const std::string pressure =
      drive_swapped(drive_good, "\"pump_speed\"", "\"regulator\"\nleast = \"5 psi\"\nmost = \"50 psi\"") +
      "[regulator]\nrated_flow = \"20 gpm\"\nrated_loss = \"5 psi\"\n";
  EXPECT_NEAR(setting_range(read_one_drive(pressure)).low, si(5.0 * psi), 1e-9);
  drive_refused(drive_swapped(share, "\"20 %\"", "\"5 psi\""), "[drive] least");
  drive_refused(drive_swapped(share, "\"20 %\"", "\"1 %\""), "[drive] least");
  drive_refused(drive_swapped(share, "\"60 %\"", "0.6"), "[drive] setting");
  drive_refused(drive_swapped(pressure, "\"5 psi\"", "\"60 psi\""), "[drive]");
}

TEST(LayoutDrive, WrongDrivesAreRefusedWithTheirPlace) {
  drive_refused(drive_head + drive_tank + drive_pump, "a.toml", "drive");
  drive_refused(drive_swapped(drive_good, drive_tank, ""), "a.toml", "tank");
  drive_refused(drive_swapped(drive_good, drive_pump, ""), "a.toml", "pump");
  drive_refused(drive_swapped(drive_good, "pump_speed", "pump_sped"), "[drive] control", "pump_speed");
  drive_refused(drive_swapped(drive_good, "pump_speed", "throttle"), "[drive]", "throttle valve");
  drive_refused(drive_swapped(drive_good, "[[tank]]", "[tank]"), "tank", "[[tank]]");
  drive_refused(drive_swapped(drive_good, "level = \"0.5 m\"", "level = \"1.5 m\""), "[[tank]] #1 level");
  drive_refused(drive_swapped(drive_good, "level = \"0.5 m\"", "level = \"0.5 m\"\ndiameter = \"1 m\""),
                "[[tank]] #1 diameter");
  drive_refused(drive_good + drive_tank, "[[tank]] #1", "hose_length");
  drive_refused(drive_good + "[suction]\nlength = \"200 m\"\n", "[suction] length");
  drive_refused(drive_good + "[suction]\nlowest_pressure = \"-20 psi\"\n", "[suction] lowest_pressure");
  drive_refused(drive_good + "[suction]\nboar = \"1 in\"\n", "[suction]", "bore");
  drive_refused(drive_swapped(drive_good, "centrifugal_pump", "positive_pump"), "[pump] shutoff", "displacement");
  drive_refused(
      drive_swapped(drive_good, drive_pump,
                    "[pump]\nkind = \"pump_curve\"\npoints = [[\"0 gpm\", \"60 psi\"], [\"10 gpm\", \"50 psi\"], "
                    "[\"20 gpm\", \"40 psi\"], [\"30 gpm\", \"20 psi\"]]\nsuction_heads = [\"4 ft\"]\n"),
      "[pump] suction_heads", "each");
  const std::string valve = "cv = \"12 gpm\"\nbore = \"3/4 in\"\nopen = \"50 %\"\n";
  drive_refused(drive_swapped(drive_good, "pump_speed", "bypass") + "[bypass]\n" + valve, "[bypass] open");
  drive_refused(drive_swapped(drive_good, "pump_speed", "throttle") + "[throttle]\n" + valve, "[throttle] open");
  drive_refused(
      drive_swapped(drive_good, "pump_speed", "pulse") + "[pulse]\npassage_bore = \"5 mm\"\nduty = \"50 %\"\n",
      "[pulse] duty");
  drive_refused(drive_good + "[regulator]\npassage_bore = \"5 mm\"\n", "[regulator]", "set");
  // What the control moves has no value of its own.
  drive_refused(drive_swapped(drive_good, "pump_speed", "regulator") +
                    "[regulator]\npassage_bore = \"10 mm\"\nset = \"20 psi\"\n",
                "[regulator] set", "least and most");
  // Two tanks share what they hold by their hoses: one of no length tells nothing.
  drive_refused(drive_swapped(drive_good, "level = \"0.5 m\"", "level = \"0.5 m\"\nhose_length = \"0 m\"") +
                    drive_tank + "hose_length = \"1 m\"\n",
                "[[tank]] #1 hose_length", "more than 0");
  std::string many = drive_swapped(drive_good, drive_tank, "");
  for (std::size_t k = 0; k <= drive_limits::tanks; ++k) many += drive_tank + "hose_length = \"1 m\"\n";
  drive_refused(many, "tank", fmt::format("1 to {} tanks", drive_limits::tanks));
  drive_refused(drive_good + "[section_valve]\ncv = \"900 gpm\"\nbore = \"3/4 in\"\n", "[section_valve]");
  drive_refused(drive_swapped(drive_good, "speed = \"5 mph\"", "speed = \"5 mph\"\npressure = \"20 psi\""),
                "[job] pressure", "setting");
  drive_refused(drive_swapped(drive_good, "spacing = \"30 in\"",
                              "spacing = \"30 in\"\norifice_least = \"20 psi\"\norifice_most = \"10 psi\""),
                "[toolbar] orifice_most");
}

TEST(LayoutDrive, RangeRises) {
  const std::string range = drive_head + "[range]\nspeeds = [\"3 mph\", \"5 mph\"]\nrates = [\"8 gal/ac\"]\n";
  const Layout layout = parse_layout(range, "a.toml");
  ASSERT_EQ(layout.range.speeds.size(), 2U);
  EXPECT_NEAR(si(layout.range.speeds[1]), si(5.0 * mph), 1e-12);
  EXPECT_FALSE(std::get<Toolbar>(layout.plumbing).drive);
  drive_refused(drive_swapped(range, "\"3 mph\", \"5 mph\"", "\"3 mph\", \"3 mph\""), "[range] speeds", "rise");
  drive_refused(drive_swapped(range, "\"8 gal/ac\"", "\"8 gpm\""), "[range] rates");
  // One of the two may be left to the job.
  const WorkingRange rates = parse_layout(drive_head + "[range]\nrates = [\"8 gal/ac\"]\n", "a.toml").range;
  EXPECT_TRUE(rates.speeds.empty());
  EXPECT_EQ(rates.rates.size(), 1U);
  const WorkingRange speeds = parse_layout(drive_head + "[range]\nspeeds = [\"3 mph\"]\n", "a.toml").range;
  EXPECT_EQ(speeds.speeds.size(), 1U);
  EXPECT_TRUE(speeds.rates.empty());
}

// What the control does not move keeps the value that the layout gives it.
TEST(LayoutDrive, APulsedValveBesideTheControlHasItsDuty) {
  const Drive d = read_one_drive(drive_good + "[pulse]\npassage_bore = \"5 mm\"\nduty = \"50 %\"\n");
  ASSERT_TRUE(d.pulse);
  EXPECT_DOUBLE_EQ(d.pulse->duty, 0.5);
  EXPECT_EQ(d.control, DriveControl::pump_speed);
}

TEST(LayoutDrive, DoesNotGoWithAFreeForm) {
  const std::string free =
      R"(place = [{ id = "p", kind = "fed" }, { id = "row 1", kind = "air", row = 1, width = "30 in" }]
part = [{ id = "o", kind = "orifice", from = "p", to = "row 1", bore = "1 mm" }]
[job]
product = "water"
temperature = "60 F"
rate = "10 gal/ac"
speed = "5 mph"
)";
  EXPECT_NO_THROW((void)parse_layout(free, "a.toml"));
  drive_refused(free + "[drive]\ncontrol = \"pump_speed\"\n", "drive", "places and parts");
  drive_refused(free + drive_pump, "pump", "places and parts");
}

TEST(LayoutDrive, EveryPumpMayNameItsEfficiency) {
  const std::string good = drive_swapped(drive_good, "shutoff", "efficiency = \"60 %\"\nshutoff");
  EXPECT_DOUBLE_EQ(std::get<CentrifugalPump>(read_one_drive(good).pump).efficiency.value(), 0.6);
  EXPECT_FALSE(std::get<CentrifugalPump>(read_one_drive(drive_good).pump).efficiency);
  drive_refused(drive_swapped(good, "60 %", "0.5 %"), "[pump] efficiency", "1 to 100 %");
  drive_refused(drive_swapped(good, "60 %", "101 %"), "[pump] efficiency", "1 to 100 %");
  const std::string slip = "slip_flow = \"0.5 gpm\"\nslip_gain = \"40 psi\"\nefficiency = \"70 %\"\n";
  const std::string positive = drive_swapped(
      drive_good, drive_pump, "[pump]\nkind = \"positive_pump\"\ndisplacement = \"0.02 gal\"\nrpm = 500\n" + slip);
  EXPECT_DOUBLE_EQ(std::get<PositivePump>(read_one_drive(positive).pump).efficiency.value(), 0.7);
  const std::string ground =
      drive_swapped(drive_good, drive_pump,
                    "[pump]\nkind = \"ground_driven_pump\"\ndisplacement = \"1 gal\"\ndistance = \"100 ft\"\n" + slip);
  EXPECT_DOUBLE_EQ(std::get<GroundDrivenPump>(read_one_drive(ground).pump).efficiency.value(), 0.7);
  // A curve has it point by point.
  const std::string curve =
      drive_swapped(drive_good, drive_pump,
                    "[pump]\nkind = \"pump_curve\"\npoints = [[\"0 gpm\", \"50 psi\"], "
                    "[\"10 gpm\", \"45 psi\"], [\"20 gpm\", \"35 psi\"], [\"30 gpm\", \"20 psi\"]]\n"
                    "efficiencies = [\"0 %\", \"40 %\", \"55 %\", \"50 %\"]\n");
  EXPECT_DOUBLE_EQ(std::get<PumpCurve>(read_one_drive(curve).pump).points.at(2).efficiency.value(), 0.55);
  drive_refused(drive_swapped(curve, "\"pump_curve\"", "\"pump_curve\"\nefficiency = \"50 %\""), "[pump] efficiency");
}

}  // namespace layout_drive_test
}  // namespace libflow
