// SPDX-License-Identifier: MIT
/// @file
/// Colebrook-White against its closed form, its limits and its neighbours.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include <boost/math/special_functions/lambert_w.hpp>

#include <libflow/physics/friction.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::physics {
namespace colebrook_test {

using test::Many;

struct Row {
  double re;
  double f[12];
};

constexpr const char* roughness_text[12] = {"0",    "1e-6", "1e-5", "1e-4", "2e-4", "5e-4",
                                            "1e-3", "2e-3", "5e-3", "1e-2", "2e-2", "5e-2"};
constexpr double roughness[12] = {0, 1e-6, 1e-5, 1e-4, 2e-4, 5e-4, 1e-3, 2e-3, 5e-3, 1e-2, 2e-2, 5e-2};

// C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133, constants 3.7 and 2.51; its closed form with Lambert W evaluated
// with 50 digits and printed to 16 (computed, not a printed table). The rows below Re 4000 check the formula only.
constexpr Row grid[10] = {
    {2300,
     {0.04728331390522484, 0.04728412295380464, 0.04729140393837990, 0.04736416904132207, 0.04744492403583616,
      0.04768659276105539, 0.04808741360855018, 0.04888190236375939, 0.05121185575063028, 0.05493840586283670,
      0.06192972271891240, 0.08065742365639975}},
    {3000,
     {0.04351918876857631, 0.04352008852516940, 0.04352818563473739, 0.04360908759075775, 0.04369883179864103,
      0.04396714587893009, 0.04441132802333857, 0.04528880170348215, 0.04784121246317587, 0.05186836085060250,
      0.05928742239548710, 0.07867325582937858}},
    {4000,
     {0.03990701405563490, 0.03990802944617066, 0.03991716685041008, 0.04000843123355550, 0.04010960347995636,
      0.04041166970486353, 0.04091038986284613, 0.04189091281692866, 0.04471123631724273, 0.04908226944789973,
      0.05695852259542749, 0.07698683488922487}},
    {5000,
     {0.03739272757804739, 0.03739384721719336, 0.03740392238779571, 0.03750451801413035, 0.03761596025112875,
      0.03794823131560183, 0.03849535900053961, 0.03956602136563921, 0.04261284778877771, 0.04725907868579594,
      0.05547719754809987, 0.07594779848272608}},
    {10000,
     {0.03088295035348769, 0.03088449809142111, 0.03089842305204123, 0.03103721220099863, 0.03119045277878479,
      0.03164423586625213, 0.03238180636309272, 0.03379373135848752, 0.03762986197561706, 0.04312658470681169,
      0.05227491406438677, 0.07380127563853828}},
    {30000,
     {0.02348295459417479, 0.02348568533216140, 0.02351023608241778, 0.02375322644461898, 0.02401803621284232,
      0.02478240932890385, 0.02596973469773717, 0.02809363960202390, 0.03324454002291355, 0.03982230603643061,
      0.04991019093583552, 0.07231352995731252}},
    {100000,
     {0.01798977308427384, 0.01799519319334717, 0.01804380289506368, 0.01851386607747164, 0.01900543522195957,
      0.02032700015817038, 0.02217453594451508, 0.02510664588841848, 0.03130638293708663, 0.03850354352733510,
      0.04902654828056310, 0.07178092944114033}},
    {1e6,
     {0.01164504099799162, 0.01166815551348580, 0.01186954482794495, 0.01344143769250849, 0.01468323427938886,
      0.01720672984406813, 0.01994346584047687, 0.02360699039818368, 0.03046502582087510, 0.03796474187616006,
      0.04867669270758877, 0.07157375385985787}},
    {1e7,
     {0.008102669430874913, 0.008213180404259389, 0.008995711744834441, 0.01216608095889658, 0.01383849583190983,
      0.01675254397240960, 0.01966705243209676, 0.02343936331188638, 0.03037727459253992, 0.03790982575180660,
      0.04864141524272925, 0.07155298184086677}},
    {1e8,
     {0.005940466351636761, 0.006432556519692280, 0.008187559102682013, 0.01199905055536949, 0.01374071499248083,
      0.01670438722613313, 0.01963863283738529, 0.02342238474820723, 0.03036846034818897, 0.03790432338735433,
      0.04863788452675613, 0.07155090409108326}},
};

TEST(FrictionColebrook, GridOfTheClosedForm) {
  for (const Row& row : grid) {
    for (int i = 0; i < 12; ++i) {
      EXPECT_NEAR(friction_colebrook(row.re, roughness[i]).f / row.f[i], 1.0, 1e-13)
          << "Re " << row.re << ", e/D " << roughness_text[i];
    }
  }
}

// The grid itself, afresh: X = (2/ln10) W[(ln10/2b) 10^(a/2b)] - a/b, a = (e/D)/3.7, b = 2.51/Re, f = X^-2, with
// another library's W and fifty digits. Within the formula's range the loss of digits in X stays below ten.
TEST(FrictionColebrook, LambertWInFiftyDigits) {
  const Many ln10 = log(Many(10));
  for (const Row& row : grid) {
    for (int i = 0; i < 12; ++i) {
      const Many rel(roughness_text[i]);
      const Many a = rel * 10 / 37;
      const Many b = Many(251) / 100 / Many(row.re);
      const Many x = 2 / ln10 * boost::math::lambert_w0(Many(ln10 / (2 * b) * exp(Many(ln10 * a / (2 * b))))) - a / b;
      const Many f = 1 / (x * x);
      EXPECT_LT(abs(Many(row.f[i] / f - 1)), 1e-15) << row.re << " " << rel;
      EXPECT_LT(abs(Many(friction_colebrook(row.re, roughness[i]).f / f - 1)), 1e-15) << row.re << " " << rel;
      EXPECT_LT(abs(Many(friction_colebrook<Many>(Many(row.re), rel).f / f - 1)), Many("1e-40"))
          << row.re << " " << rel;
    }
  }
}

// The equation itself, residual in fifty digits, over a finer grid than the table's. In double the rounding of the
// two logarithms is left, at most some ten units of the last digit.
TEST(FrictionColebrook, SolvesItsEquation) {
  for (double log_re = std::log10(4000.0); log_re <= 8.0; log_re += 0.0637) {
    for (double rel = 0.0; rel <= 0.05; rel += 0.00231) {
      const double re = std::pow(10.0, log_re);
      const Many f = friction_colebrook<Many>(Many(re), Many(rel)).f;
      const Many right = -2 * log10(Many(Many(rel) * 10 / 37 + Many(251) / 100 / (Many(re) * sqrt(f))));
      EXPECT_LT(abs(Many(right * sqrt(f) - 1)), Many("1e-40")) << re << " " << rel;
      EXPECT_LT(abs(Many(friction_colebrook(re, rel).f / f - 1)), 3e-15) << re << " " << rel;
    }
  }
}

TEST(FrictionColebrook, SlopeIsTheDerivative) {
  for (const double re : {4000.0, 5123.0, 3e4, 1e5, 1e6, 1e8}) {
    for (const double rel : roughness) {
      const Many slope =
          test::difference_slope([&](const Many& x) { return friction_colebrook<Many>(x, Many(rel)).f; }, Many(re));
      EXPECT_LT(abs(Many(friction_colebrook(re, rel).slope / slope - 1)), 1e-13) << re << " " << rel;
      EXPECT_LT(abs(Many(friction_colebrook<Many>(Many(re), Many(rel)).slope / slope - 1)), 1e-27) << re << " " << rel;
    }
  }
}

// Constants 3.71 and 3.715 are in print too (same closed form, computed): they are further away than any tolerance
// above, so a mix-up would show.
TEST(FrictionColebrook, IsNotTheFormulaWithOtherConstants) {
  struct Other {
    double re, rel, f_37, f_371, f_3715;
  };
  const Other rows[] = {{4000, 1e-3, 0.04091038986284613, 0.04090771685029593, 0.04090638567851576},
                        {1e5, 1e-4, 0.01851386607747164, 0.01851249948164709, 0.01851181885479541},
                        {1e6, 1e-2, 0.03796474187616006, 0.03793027405225592, 0.03791309273723264}};
  for (const Other& row : rows) {
    const double f = friction_colebrook(row.re, row.rel).f;
    EXPECT_NEAR(f / row.f_37, 1.0, 1e-13);
    EXPECT_GT(std::abs(f / row.f_371 - 1.0), 5e-5);
    EXPECT_GT(std::abs(f / row.f_3715 - 1.0), 5e-5);
    // A roughness scaled by 3.7/3.71 turns one into the other: the difference is that constant and nothing else.
    EXPECT_NEAR(friction_colebrook(row.re, row.rel * 3.7 / 3.71).f / row.f_371, 1.0, 1e-13);
    EXPECT_NEAR(friction_colebrook(row.re, row.rel * 3.7 / 3.715).f / row.f_3715, 1.0, 1e-13);
  }
}

// Smooth wall: Prandtl-Karman 2 log10(Re sqrt f) - 0.8; printed by F. M. White, Fluid Mechanics, below eq. 6.38 (from
// memory) to two or three digits; B. J. McKeon et al. 2004, 1.930 log10(Re sqrt f) - 0.537; H. Blasius 1913,
// 0.3164 Re^(-1/4), to Re 1e5. The formulas evaluated with many digits (computed).
TEST(FrictionColebrook, SmoothWallNeighbours) {
  struct Smooth {
    double re, prandtl, white, blasius, mckeon;
  };
  const Smooth rows[] = {{4e3, 0.03991588157613228, 0.0399, 0.03978519371516808, 0.03911049455045356},
                         {1e4, 0.03088909637688346, 0.0309, 0.03164000000000000, 0.03055242062239210},
                         {1e5, 0.01799259391769343, 0.0180, 0.01779247952902264, 0.01810561056446025},
                         {1e6, 0.01164654064862814, 0.0116, 0.01000544651677275, 0.01185512257530064},
                         {1e7, 0.008103552371798209, 0.0081, 0.005626476053363152, 0.008316203054110177},
                         {1e8, 0.005941026453368196, 0.0059, 0.003164000000000000, 0.006133983156691935}};
  for (const Smooth& row : rows) {
    const double f = friction_colebrook(row.re, 0.0).f;
    EXPECT_NEAR(f / row.prandtl, 1.0, 2.5e-4) << row.re;  // the gap between -0.8 and 2 log10 2.51
    EXPECT_NEAR(f, row.white, 5e-5) << row.re;
    EXPECT_NEAR(f / row.mckeon, 1.0, row.re <= 1e6 ? 0.021 : 0.033) << row.re;
    if (row.re <= 1e5) {
      EXPECT_NEAR(f / row.blasius, 1.0, 0.025) << row.re;
    }
  }
}

// Fully rough limit f = [2 log10(3.7 D/e)]^-2, von Karman 1930 (computed from the formula).
TEST(FrictionColebrook, RoughLimit) {
  const double limit[11] = {0.005794914648297546, 0.008063249304156257, 0.01197979708325531, 0.01372965949870909,
                            0.01669900250270376,  0.01963546593552670,  0.02342049576230431, 0.03036748054496228,
                            0.03790371189239129,  0.04863749219159592,  0.07155067322384339};
  for (int i = 0; i < 11; ++i) {
    EXPECT_NEAR(friction_colebrook(1e16, roughness[i + 1]).f / limit[i], 1.0, 1e-8) << roughness_text[i + 1];
    // From above, and closer as the flow grows.
    double gap = 1.0;
    for (const double re : {1e5, 1e6, 1e7, 1e8, 1e10}) {
      const double now = friction_colebrook(re, roughness[i + 1]).f / limit[i] - 1.0;
      EXPECT_GT(now, 0.0) << re;
      if (re > 1e5) {
        EXPECT_LT(now, gap) << re;
      }
      gap = now;
    }
  }
}

}  // namespace colebrook_test
}  // namespace libflow::physics
