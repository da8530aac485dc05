// SPDX-License-Identifier: MIT
/// @file
/// Sizing and equal hoses, as a dealer reads them.
#include <gtest/gtest.h>

#include <string>

#include <fmt/core.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/layout_size.hpp>
#include <libflow/fluid/catalogue.hpp>
#include <libflow/report/equal_hoses_text.hpp>
#include <libflow/report/size_text.hpp>
#include <libflow/report/size_toml.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>
#include <libflow/units/table.hpp>
#include <tests/support/text.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace size_text_test {

using test::says;

using namespace units;

Layout dealer_bar() {
  Toolbar t = test::plain_bar(8);
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 2.0 * ft};
  t.hose_bore = 6.0 * mm;
  t.check_valve = test::plain_valve();
  Layout layout{.name = "dealer's bar", .job = test::plain_job(), .plumbing = t};
  layout.job.liquid = find_liquid("10-34-0");
  layout.job.rate = 5.0 * gal_per_acre;
  return layout;
}
SizeChoices dealer_choices() {
  SizeChoices c;
  c.hose_bores = {4.5 * mm, 5.5 * mm};
  c.cracks = {2.0 * psi, 4.0 * psi};
  c.speeds = {4.0 * mph, 6.0 * mph};
  return c;
}

TEST(SizeText, SaysWhatToBuyAndWhy) {
  const SizeAnswer a = size_toolbar(dealer_bar(), dealer_choices());
  ASSERT_FALSE(a.fits.empty());
  ASSERT_TRUE(a.nearest_miss);
  for (const UnitSystem units : {UnitSystem::us, UnitSystem::metric}) {
    for (const std::size_t width : {std::size_t{80}, std::size_t{100}}) {
      const std::string text = size_text(a, {.units = units, .width = width});
      EXPECT_LE(report_detail::widest_line(text), width) << text;
      EXPECT_TRUE(text.starts_with("FITS: ")) << text;
      for (const char* word :
           {"What to buy", "Orifices", "8 in all", "Hose", "Check valves", "Manifold", "What binds", "With less hose",
            "it breaks:", "What else would do", "verified at", "This is a computation, not a permission."}) {
        EXPECT_TRUE(says(text, word)) << word << "\n" << text;
      }
      EXPECT_FALSE(says(text, "nan")) << text;
      EXPECT_FALSE(says(text, "inf ")) << text;
    }
  }
}

// The example whose cheapest choice breaks a limit where the product is thick: said first, with what would be sure and
// what that costs; at prices that differ little that is what is recommended; a measured viscosity leaves nothing to
// say.
TEST(SizeText, SaysWhetherItIsSure) {
  SizeFile file = read_size(std::string(LIBFLOW_EXAMPLES) + "/sizing.toml");
  const SizeAnswer dear = size_toolbar(file.layout, file.choices);
  ASSERT_TRUE(dear.sure);
  ASSERT_FALSE(dear.is_sure());
  const std::string unsure = size_text(dear);
  EXPECT_TRUE(
      says(unsure, "is below. NOT SURE: it holds at the most likely viscosity, not over the whole of its band."));
  EXPECT_TRUE(says(unsure,
                   "NOT SURE: it is somewhere from 33.2 cP to 226 cP at these temperatures, and at 226 cP it "
                   "breaks: gauge pressure, it rises to "))
      << unsure;
  EXPECT_TRUE(says(
      unsure,
      fmt::format("The cheapest that holds over the whole band is number {} of the list, at a price "
                  "higher by {}: it stands below.",
                  *dear.sure + 1, report_detail::percent(dear.fits[*dear.sure].price / dear.winner()->price - 1.0))))
      << unsure;
  EXPECT_TRUE(says(unsure, "What to buy to be sure over the whole band of the viscosity")) << unsure;
  EXPECT_NE(unsure.find(size_toml(dear.problem, dear.fits[*dear.sure], UnitSystem::us)), std::string::npos) << unsure;
  EXPECT_TRUE(says(unsure, "Sure: the first that holds over the whole band")) << unsure;
  EXPECT_TRUE(says(unsure, "runs rounded up to one inch")) << unsure;
  EXPECT_TRUE(says(unsure, "+20'7\"")) << "the list's two lengths\n" << unsure;

  file.choices.hose_prices = {1.00, 1.01, 1.02};
  file.choices.cuts = {Cut::equal};
  const SizeAnswer cheap = size_toolbar(file.layout, file.choices);
  ASSERT_GT(cheap.best, 0U);
  const std::string sure = size_text(cheap);
  EXPECT_FALSE(says(sure, "NOT SURE")) << sure;
  EXPECT_TRUE(
      says(sure, fmt::format("below is number {} of the list, at a price higher by 1.0 %, because it holds over the "
                             "whole band of the viscosity.",
                             cheap.best + 1)))
      << sure;
  EXPECT_TRUE(says(sure, "Viscosity sure: every limit holds at both ends of its band too (33.2 cP to 226 cP")) << sure;
  EXPECT_TRUE(says(sure, "The cheapest number 1 of the list fits, but at 226 cP it breaks:")) << sure;

  file.layout.job.liquid =
      file.layout.job.liquid.with_viscosity({{120.0 * cP, fahrenheit(40)}, {56.0 * cP, fahrenheit(70)}});
  const std::string measured = size_text(size_toolbar(file.layout, file.choices));
  EXPECT_TRUE(measured.starts_with("FITS: ")) << measured;
  EXPECT_FALSE(says(measured, "SURE")) << measured;
  EXPECT_FALSE(says(measured, "band of the viscosity")) << measured;
}

TEST(SizeText, NothingFitsShowsTheNearestMiss) {
  Layout strict = dealer_bar();
  strict.job.tolerance = 0.01;
  SizeChoices choices = dealer_choices();
  choices.cuts = {Cut::shortest};
  choices.extra = 0.0 * m;
  const std::string text = size_text(size_toolbar(strict, choices));
  EXPECT_TRUE(text.starts_with("NOTHING FITS: ")) << text;
  EXPECT_TRUE(says(text, "The nearest miss")) << text;
  EXPECT_TRUE(says(text, "It breaks")) << text;
  EXPECT_TRUE(says(text, "no slack is added")) << text;
}

TEST(SizeText, SaysNearTheTopWhatTheChoiceDoesNotHold) {
  Layout layout = dealer_bar();
  SizeChoices choices = dealer_choices();
  choices.hose_bores.clear();
  choices.extra = 0.0 * m;
  const std::string drawn = size_text(size_toolbar(layout, choices), {.units = UnitSystem::metric});
  EXPECT_TRUE(says(drawn, "What to buy BUT the lengths are the runs along the bar alone")) << drawn;
  EXPECT_TRUE(says(drawn, "Tried: hose bores: 6.00 mm, the layout's own; give hose_bores in [size]")) << drawn;
  EXPECT_TRUE(says(drawn, "As drawn this is the choice as drawn; real parts vary")) << drawn;
  EXPECT_TRUE(says(drawn, "Orifices' share ")) << drawn;
  EXPECT_FALSE(says(drawn, "AS BUILT")) << drawn;
  layout.tolerances = read_layout(std::string(LIBFLOW_EXAMPLES) + "/as_built.toml").tolerances;
  layout.tolerances.resize(2);  // orifices and hoses as cut; the others are for 16 rows
  const std::string built = size_text(size_toolbar(layout, dealer_choices()));
  EXPECT_TRUE(says(built, "of such machines are even")) << built;
  EXPECT_FALSE(says(built, "real parts vary")) << built;
  EXPECT_FALSE(says(built, "BUT the lengths")) << built;
  EXPECT_FALSE(says(built, "Tried: hose bores")) << built;
}

TEST(SizeText, PricesAndGroupsAndStops) {
  SizeChoices choices = dealer_choices();
  choices.hose_prices = {1.5, 2.5};
  choices.groups = {{.name = "outer", .rows = {1, 2, 7, 8}}};
  choices.orifices = {OrificeByBore{.bore = 0.9 * mm}, OrificeByBore{.bore = 1.0 * mm}};
  const SizeAnswer a = size_toolbar(dealer_bar(), choices);
  const std::string text = size_text(a);
  EXPECT_TRUE(says(text, "'outer': rows 1, 2, 7, 8")) << text;
  EXPECT_TRUE(says(text, "'other rows': rows 3 to 6")) << text;
  EXPECT_TRUE(says(text, "price of the rows' hose")) << text;
  const SizeAnswer stopped =
      size_toolbar(dealer_bar(), choices, [](std::size_t done, std::size_t) { return done < 16; });
  EXPECT_TRUE(says(size_text(stopped), "STOPPED after")) << size_text(stopped);
}

TEST(EqualHosesText, YesAndNo) {
  Layout layout = dealer_bar();
  const EqualHoses yes = equal_hoses(layout, dealer_choices());
  for (const std::size_t width : {std::size_t{80}, std::size_t{100}}) {
    const std::string text = equal_hoses_text(yes, {.width = width});
    EXPECT_TRUE(text.starts_with("YES, with the orifice that you have")) << text;
    EXPECT_LE(report_detail::widest_line(text), width) << text;
    EXPECT_TRUE(says(text, "The shortest hoses (")) << text;
    EXPECT_TRUE(says(text, "With that one orifice everywhere the gauge rises to")) << text;
    EXPECT_FALSE(says(text, "nan")) << text;
  }
  EXPECT_TRUE(says(equal_hoses_text(yes), "hoses of two lengths may do: see 'libflow size'"));
  EXPECT_FALSE(says(equal_hoses_text(yes), "BUT"));
  SizeChoices bare = dealer_choices();
  bare.extra = 0.0 * m;
  const std::string short_cut = equal_hoses_text(equal_hoses(layout, bare));
  EXPECT_LT(short_cut.find("BUT the lengths are the runs"), short_cut.find("The shortest hoses (")) << short_cut;
  std::get<Toolbar>(layout.plumbing).orifice = OrificeByBore{.bore = 0.4 * mm};
  const std::string no = equal_hoses_text(equal_hoses(layout));
  EXPECT_TRUE(no.starts_with("NO: your hoses need not be equal")) << no;
  layout.job.turn_radius = 15.0 * m;
  const std::string never = equal_hoses_text(equal_hoses(layout));
  EXPECT_TRUE(says(never, "No orifice makes the shortest hoses even enough")) << never;
  EXPECT_TRUE(says(never, "equal hoses alone are not even either")) << never;
}

TEST(EqualHosesText, WhereTheHoseLosesNextToNothingAnyOrificeWill) {
  // Hoses of 60 mm lose next to nothing: even with a hole of their own bore the check valves alone meter all rows
  // alike.
  Layout layout = dealer_bar();
  std::get<Toolbar>(layout.plumbing).hose_bore = 60.0 * mm;
  std::get<Toolbar>(layout.plumbing).manifolds.front().bore = 80.0 * mm;
  const EqualHoses a = equal_hoses(layout);
  ASSERT_EQ(a.points.at(a.strictest).need, EqualHosesPoint::Need::any_orifice);
  const std::string text = equal_hoses_text(a);
  EXPECT_TRUE(
      says(text, fmt::format("Whatever the orifice, the shortest hoses are even enough: {} of hose instead of {} "
                             "with every hose as long as the longest run",
                             format(from_si<Length>(a.cut_shortest), UnitSystem::us),
                             format(from_si<Length>(a.cut_equal), UnitSystem::us))))
      << text;
  EXPECT_TRUE(says(text, "- - - always")) << text;
}

}  // namespace size_text_test
}  // namespace libflow
