// SPDX-License-Identifier: MIT
#include <libflow/report/catch_level_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/catch_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/catch_causes.hpp>

namespace libflow::report_detail {

static std::string who(const CatchVerdict& v) {
  return v.level.every_row ? "every row collects some" : "the middle row collects";
}

std::string level_phrase(const CatchVerdict& v) {
  if (!v.level.off) return {};
  return fmt::format("{} {:.0f} % {} than the layout says", v.even ? "; BUT " + who(v) : "; and " + who(v),
                     100.0 * std::abs(v.level.change), v.level.change < 0.0 ? "less" : "more");
}

/// Never as a power of ten.
static std::string seconds(double s) { return s < 100.0 ? fmt::format("{:.3g}", s) : fmt::format("{:.0f}", s); }

/// One thing to check. Less is likelier: what does not fit goes behind what does.
struct LevelCheck {
  int unlikely = 0;
  std::string text;
};

class LevelChecks {
 public:
  LevelChecks(const std::vector<CatchVerdict>& catches, UnitSystem u) : u_(u) {
    for (const CatchVerdict& v : catches) {
      if (v.level.off) off_.push_back(&v);
    }
    two_ = catches.size() > 1;
  }
  [[nodiscard]] bool any() const { return !off_.empty(); }

  [[nodiscard]] LevelAdvice advice() const {
    std::vector<LevelCheck> checks{gauge(), time(), liquid(), way(), orifices()};
    std::erase_if(checks, [](const LevelCheck& c) { return c.text.empty(); });
    std::stable_sort(checks.begin(), checks.end(),
                     [](const LevelCheck& a, const LevelCheck& b) { return a.unlikely < b.unlikely; });
    LevelAdvice advice{.lead = lead(), .items = {}};
    for (LevelCheck& c : checks) advice.items.push_back(std::move(c.text));
    return advice;
  }

 private:
  [[nodiscard]] bool low() const { return off_.front()->level.change < 0.0; }
  [[nodiscard]] const Layout& layout() const { return off_.front()->answer.layout; }
  /// Of several catches, which; of one: nothing.
  [[nodiscard]] std::string in_catch(const CatchVerdict& v) const {
    if (!two_) return {};
    return " in the catch at " + shown<Pressure>(v.answer.evenness.supply_pressure, u_) +
           (v.water ? " with water" : "");
  }
  /// What `of` says of every catch that is off, one after another; once where it says the same of both.
  template <class Of>
  [[nodiscard]] std::string each(const Of& of) const {
    if (off_.size() == 2 && of(*off_[0]) == of(*off_[1])) return of(*off_[0]) + " in both catches";
    std::string text;
    for (const CatchVerdict* v : off_) text += (text.empty() ? "" : ", ") + of(*v) + in_catch(*v);
    return text;
  }
  /// Two catches that both are off want the same share of something, within a tenth; otherwise it is not that alone.
  template <class Share>
  [[nodiscard]] bool agree(const Share& share) const {
    double least = INFINITY, most = 0.0;
    for (const CatchVerdict* v : off_) {
      const double s = share(*v);
      if (!std::isfinite(s)) return false;
      least = std::fmin(least, s);
      most = std::fmax(most, s);
    }
    return most < 1.1 * least;
  }
  template <class Share>
  [[nodiscard]] int unlikely(const Share& share) const {
    return agree(share) ? 0 : 2;
  }
  template <class Share>
  [[nodiscard]] std::string not_both(const Share& share) const {
    return off_.size() > 1 && !agree(share) ? " One and the same slip does not fit both catches." : "";
  }

  [[nodiscard]] std::string lead() const {
    std::string text = fmt::format("THE WHOLE BAR IS {}: ", low() ? "LOW" : "HIGH");
    text += each([&](const CatchVerdict& v) {
      return fmt::format("{} {:.0f} % {} than the layout says", who(v), 100.0 * std::abs(v.level.change),
                         v.level.change < 0.0 ? "less" : "more");
    });
    const std::string slip = slip_question();
    if (!slip.empty()) text += ": " + slip;
    return text + (slip.empty() ? "." : "") +
           " Before a row is blamed, check what moves all rows alike, likeliest first (the order is common practice, "
           "no "
           "source; the figures are what would make the cups fit by itself):";
  }

  /// "29.6 times too little, which is the ratio of fl oz to ml: is the unit of the column right?"; the same ratio in
  /// all catches that are off, else nothing.
  [[nodiscard]] std::string slip_question() const {
    const auto& first = off_.front()->level;
    if (!first.slip) return {};
    const bool all = std::all_of(off_.begin(), off_.end(), [&](const auto* v) {
      return v->level.slip && v->level.slip->factor == first.slip->factor && (v->level.change < 0.0) == low();
    });
    if (!all) return {};
    if (first.slip->factor == 10.0) {
      return fmt::format("that is 10 times too {}: is a decimal point one place off, in the volumes or in --time?",
                         low() ? "little" : "much");
    }
    return fmt::format(
        "that is {:.3g} times too {}, the ratio of {}: {}", first.slip->factor, low() ? "little" : "much",
        first.slip->of,
        first.slip->factor == 60.0 ? "is the time right (--time)?" : "is the unit in the column of the volumes right?");
  }

  [[nodiscard]] LevelCheck gauge() const {
    const auto share = [](const CatchVerdict& v) { return v.level.gauge / v.answer.evenness.supply_pressure; };
    const bool none_fits =
        std::all_of(off_.begin(), off_.end(), [](const auto* v) { return !std::isfinite(v->level.gauge); });
    if (std::holds_alternative<Plumbing>(layout().plumbing)) {
      return {
          0, "The gauge: does it show zero without pressure, and did it stand at the layout's pressure all the while?"};
    }
    const std::string taken = std::all_of(off_.begin(), off_.end(), [](const auto* v) { return v->gauge.has_value(); })
                                  ? "stand where it was read all the while"
                                  : "stand there at all (no reading was given, so the layout's own pressure is taken: "
                                    "read it, and give it with --gauge)";
    std::string text =
        fmt::format("The gauge, {}: does it show zero without pressure, and did it {}?{}", gauge_place(layout()), taken,
                    low() ? " Does the pump hold it, and is the suction open?" : "");
    text += none_fits ? std::string(" No pressure fits the cups.")
                      : " Would fit: " + each([&](const CatchVerdict& v) {
                          return std::isfinite(v.level.gauge)
                                     ? fmt::format("{} instead of {}", shown<Pressure>(v.level.gauge, u_),
                                                   shown<Pressure>(v.answer.evenness.supply_pressure, u_))
                                     : std::string("none");
                        }) + "." +
                            not_both(share);
    return {none_fits ? 3 : unlikely(share), std::move(text)};
  }
  [[nodiscard]] LevelCheck time() const {
    const auto share = [](const CatchVerdict& v) { return v.level.time / si(v.time); };
    const auto* bar = std::get_if<Toolbar>(&layout().plumbing);
    const std::string outlets =
        bar != nullptr && bar->outlets_per_row > 1 ? " Were all outlets of a row in one cup?" : "";
    return {
        slip_question().empty() ? unlikely(share) : -2,
        "The stop-watch and the measure: were all cups under for the whole time, and are the volumes in the unit that "
        "stands in the file?" +
            outlets + " Would fit: " + each([&](const CatchVerdict& v) {
              return v.level.change > -1.0
                         ? fmt::format("{} s instead of {} s", seconds(v.level.time), seconds(si(v.time)))
                         : std::string("no time");
            }) +
            "." + not_both(share)};
  }
  [[nodiscard]] LevelCheck liquid() const {
    if (std::holds_alternative<Plumbing>(layout().plumbing)) {
      return {0, "The liquid: was it the one that was said, water or product, and as warm?"};
    }
    const bool fits = std::all_of(off_.begin(), off_.end(), [](const auto* v) { return v->level.other_liquid_fits(); });
    const bool band = std::all_of(off_.begin(), off_.end(), [](const auto* v) { return v->level.viscosity_fits(); });
    // The other liquid pulls the other way: it is not that.
    const bool toward = std::all_of(off_.begin(), off_.end(), [](const auto* v) {
      return v->level.other_liquid * v->level.change > 0.0 && std::abs(v->level.other_liquid) > 0.02;
    });
    const bool water = off_.front()->water;
    std::string text = "The liquid: ";
    if (toward) {
      text += fmt::format("was it {}? {} would make ", water ? "the product, not water" : "water, not the product",
                          water ? "The product" : "Water");
      text += each([](const CatchVerdict& v) { return fmt::format("{:+.0f} %", 100.0 * v.level.other_liquid); });
      text += fits ? ": that fits." : ".";
    } else if (water) {
      return {0, {}};
    }
    if (!water) {
      text += fmt::format("{}is the product {} than the layout's {} at {}? Take its temperature, weigh a sample.",
                          toward ? " Or " : "", low() ? "colder or thicker" : "warmer or thinner",
                          shown<Viscosity>(off_.front()->answer.liquid.viscosity, u_),
                          format(layout().job.temperature, u_));
      if (band) text += " The band of its viscosity reaches as far: that alone may be it.";
    }
    return {fits || band ? -1 : 1, std::move(text)};
  }
  /// What throttles all rows behind the gauge.
  [[nodiscard]] LevelCheck way() const {
    if (!low()) return {0, {}};
    return {1, "Between gauge and rows: a strainer that is blocked, or a valve that is half shut."};
  }
  [[nodiscard]] LevelCheck orifices() const {
    const auto share = [](const CatchVerdict& v) { return v.level.orifice_share; };
    const auto* bar = std::get_if<Toolbar>(&layout().plumbing);
    if (bar == nullptr) return {1, "The orifices: is it the set that the layout names? Read the size on them."};
    if (!bar->orifice) return {0, {}};
    const double own = catch_detail::bore_of(*bar->orifice);
    std::string text = "The orifices: is it the set that the layout names? Read the size on them.";
    if (off_.size() == 1 ? std::isfinite(share(*off_.front())) : agree(share)) {
      text += fmt::format(" Would fit: {} instead of {} in every row.",
                          format_bore(from_si<Length>(own * share(*off_.front())), u_),
                          format_bore(from_si<Length>(own), u_));
      return {1, std::move(text)};
    }
    return {3, text + (off_.size() > 1 ? " No one bore fits both catches." : " No bore fits the cups.")};
  }

  std::vector<const CatchVerdict*> off_;
  bool two_ = false;
  UnitSystem u_;
};

LevelAdvice level_advice(const std::vector<CatchVerdict>& catches, UnitSystem u) {
  const LevelChecks checks(catches, u);
  return checks.any() ? checks.advice() : LevelAdvice{};
}

}  // namespace libflow::report_detail
