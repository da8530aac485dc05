// SPDX-License-Identifier: MIT
/// @file
/// Two faults at once, one of the whole bar: what a row's fault does depends on it, and each is found at its own size.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/diagnosis.hpp>
#include <tests/support/catch_cups.hpp>

namespace libflow {
namespace diagnosis_together_test {

using Of = CatchCauseKind;
using test::at_gauge, test::cups_with;

Layout equal_hoses() { return read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml"); }

const LikelyCause* likely(const Diagnosis& d, const CatchCause& truth) {
  for (const FoundCause& f : d.causes) {
    for (const LikelyCause& l : f.likely) {
      if (l.cause.same(truth)) return &l;
    }
  }
  return nullptr;
}

// Behind orifices of 0.6 of their bore a hose hardly counts; the lower the pressure, the more a check valve does.
TEST(DiagnosisTogether, ARowsFaultHasItsSizeWhateverTheWholeBarHas) {
  const Layout layout = equal_hoses();
  const std::pair<CatchCause, CatchCause> both[] = {
      {{Of::gauge, 0, 0, 0, 0.6}, {Of::hose_bore, 5, 0, 0, 0.75}},
      {{Of::orifice_set, 0, 0, 0, 0.6}, {Of::orifice, 5, 0, 0, 0.75}},
  };
  for (const auto& [bar, row] : both) {
    SCOPED_TRACE(testing::Message() << name_of(bar.kind) << " " << bar.size << ", row 5 " << name_of(row.kind) << " "
                                    << row.size);
    const std::vector<CatchReadings> c = cups_with(layout, {at_gauge(39.0), at_gauge(15.0)}, {row, bar});
    const Diagnosis d = diagnose(layout, c);
    ASSERT_EQ(d.causes.size(), 2U);
    for (const CatchCause& truth : {bar, row}) {
      const LikelyCause* found = likely(d, truth);
      ASSERT_NE(found, nullptr) << name_of(truth.kind);
      EXPECT_LE(found->low, truth.size) << name_of(truth.kind);
      EXPECT_GE(found->high, truth.size) << name_of(truth.kind);
    }
    EXPECT_LT(d.spread_left, 0.005);
    EXPECT_GT(d.left_p, 0.5);
  }
}

// A row 42 % above all others, which give 0.6 of what they should, is the row that is named. One pressure does not tell
// parts apart, be they of the row or of the whole bar.
TEST(DiagnosisTogether, ARowFarAboveALowBarIsTheOneThatIsNamed) {
  const Layout layout = equal_hoses();
  std::vector<CatchReadings> c = cups_with(layout, {at_gauge(39.0)}, {});
  for (CatchReading& r : c.front().readings) r.volume *= 0.6026 * (r.row == 5 ? 1.42 : r.row == 16 ? 1.0453 : 1.0);
  const Diagnosis d = diagnose(layout, c);
  ASSERT_EQ(d.causes.size(), 2U);
  for (const FoundCause& f : d.causes) {
    EXPECT_GE(f.likely.size(), 3U);
    EXPECT_TRUE(f.best().row == 0 || f.best().row == 5) << f.best().row;
    EXPECT_NEAR(f.effect, f.best().row > 0 ? 0.42 : 0.0, 0.02);
  }
}

// The layout as built has both: at the gauge's own pressure it gives what the cups hold.
TEST(DiagnosisTogether, TheLayoutAsBuiltHasBoth) {
  const Layout layout = equal_hoses();
  const std::vector<CatchReadings> c =
      cups_with(layout, {at_gauge(39.0), at_gauge(15.0)}, {{Of::orifice, 5, 0, 0, 1.3}, {Of::viscosity, 0, 0, 0, 0.7}});
  const Diagnosis d = diagnose(layout, c);
  ASSERT_EQ(d.causes.size(), 2U);
  const CatchModel built(d.calibrated, {at_gauge(39.0), at_gauge(15.0)});
  for (std::size_t s = 0; s < 2; ++s) {
    for (std::size_t i = 0; i < built.rows().size(); ++i) {
      const double cup = c[s].readings[3 * i + 1].volume;
      EXPECT_NEAR(std::exp(built.base()[built.cell(s, i)]) * 30.0 / cup, 1.0, 0.005) << "row " << built.rows()[i];
    }
  }
}

// The order in which causes are listed does not matter: the whole bar first, then swaps, then single rows.
TEST(DiagnosisTogether, CausesAreBuiltInInOneOrder) {
  const Layout layout = equal_hoses();
  const CatchModel model(layout, {at_gauge(39.0)});
  const CatchCause other{Of::other_orifice, 3, 0, 0, 1.2e-3}, set{Of::orifice_set, 0, 0, 0, 0.8};
  const CatchCause length{Of::hose_length, 3, 0, 0, 0.5}, swap{Of::hoses_swapped, 3, 9, 0, 1.0};
  const Eigen::VectorXd one = model.exact({other, set, length, swap}).value();
  const Eigen::VectorXd two = model.exact({swap, length, set, other}).value();
  EXPECT_EQ((one - two).cwiseAbs().maxCoeff(), 0.0);
  // A bore that was fitted is that bore, whatever set the other rows have.
  const Eigen::VectorXd alone = model.exact({other}).value(), with = model.exact({other, set}).value();
  EXPECT_NEAR(with[2], alone[2], 0.01);
  EXPECT_LT(with[3], alone[3] - 0.1);
}

// A model with causes in it starts from there.
TEST(DiagnosisTogether, AModelWithCausesTellsWhatOneMoreDoes) {
  const Layout layout = equal_hoses();
  CatchModel model(layout, {at_gauge(39.0), at_gauge(15.0)});
  const CatchCause set{Of::orifice_set, 0, 0, 0, 1.6}, hose{Of::hose_bore, 5, 0, 0, 0.75};
  std::optional<CatchModel> with = model.with({set});
  ASSERT_TRUE(with);
  EXPECT_EQ((with->base() - model.exact({set}).value()).cwiseAbs().maxCoeff(), 0.0);
  const auto of = [&](CatchModel& m, const CatchCause& c) {
    Eigen::VectorXd v;
    m.effect(c).at(c.size, v);
    return v[std::find(m.effect(c).cells.begin(), m.effect(c).cells.end(), 4) - m.effect(c).cells.begin()];
  };
  const double exact = model.exact({set, hose}).value()[4] - with->base()[4];
  EXPECT_NEAR(of(*with, hose), exact, 0.01);
  EXPECT_LT(of(*with, hose), of(model, hose) - 0.1) << "wider orifices leave more to the hose";
  EXPECT_FALSE(model.with({{Of::hose_bore, 5, 0, 0, 1e6}})) << "no such hose";
}

}  // namespace diagnosis_together_test
}  // namespace libflow
