// SPDX-License-Identifier: MIT
/// @file
/// Any part: what the network keeps of a hose, an orifice, a check valve or a part that somebody else wrote.
#pragma once

#include <algorithm>
#include <concepts>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include <libflow/core/caution.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/parts/inputs.hpp>
#include <libflow/parts/law.hpp>
#include <libflow/physics/pump.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// What every part promises about its law; `expect_lawful` holds it to that. A source that is held at a pressure or
/// pushes a given flow (a tank, an open outlet, a metering pump) is a place, not a part: see PlaceKind.
enum class Contract {
  passage,         ///< drop continuous with a continuous slope, strictly rising, positive slope at zero flow, odd
  one_way,         ///< no flow until a threshold, then a passage
  source,          ///< one way, with a gain at no flow that falls as the flow rises: a pump
  outer_corrected  ///< one way as it stands; what more it does depends on pressures elsewhere and comes by
                   ///< corrections around the solve (libflow/solve/corrected.hpp): a pressure regulator
};

/// How a part works in a solution: what its cautions look at.
struct Working {
  double flow = 0;         ///< [m3/s], + from its first place to its second
  double from = 0;         ///< total pressure at its first place [Pa gauge]
  double to = 0;           ///< total pressure at its second place [Pa gauge]
  double drop = 0;         ///< from its first place to its second, elevation included [Pa]
  bool from_known = true;  ///< false where shut parts cut the place off: its pressure is then not unique
  bool to_known = true;    ///< the same for its second place

  /// The higher of the two pressures [Pa gauge].
  [[nodiscard]] double higher() const { return std::max(from, to); }
};

/// Shaft power [W] of a pump with this law at a flow [m3/s]; empty without an efficiency, or where it does no work.
[[nodiscard]] inline std::optional<double> pump_shaft_power(const Law& law, double flow,
                                                            const std::optional<double>& efficiency) {
  if (!efficiency || !(flow > 0.0)) return std::nullopt;
  const double gain = -law(flow).dp;
  if (!(gain > 0.0)) return std::nullopt;
  return physics::shaft_power<double>(flow, gain, *efficiency);
}

/// A type that can join a Network:
///   static constexpr std::string_view kind   one word or two in the trade's terms
///   static constexpr Contract contract
///   void check(std::string_view where) const throws InputError naming field, value, allowed
///   Law law(const LiquidState&) const
/// and, where they make sense,
///   Length inside_bore() const               for velocity, Reynolds number and static pressure
///   Cautions cautions(const Working&, const LiquidState&) const
///   Cautions cautions(flow [m3/s], higher of the end pressures [Pa gauge], const LiquidState&) const   as short form
///   Passes passes() const                    where one part can be shut and another of its type open
///   static constexpr bool symmetric          false: loses more one way than the other (default true)
///   double reynolds_number(flow [m3/s], const LiquidState&) const   where its liquid is not the network's
///   std::optional<double> shaft_power(flow [m3/s], const LiquidState&) const    of a pump [W]
///   double unused_fall(flow [m3/s], const LiquidState&) const       the share of its drop that is height [Pa]
///   static constexpr std::tuple inputs, template law_on   its numeric inputs and its law on any scalar (HasInputs):
///                                            without them it can be solved but not differentiated
template <class T>
concept PartType = requires(const T& part, const LiquidState& liquid, std::string_view where) {
  { T::kind } -> std::convertible_to<std::string_view>;
  { T::contract } -> std::convertible_to<Contract>;
  part.check(where);
  { part.law(liquid) } -> std::same_as<Law>;
};

/// A part of any type, checked when made.
class Part {
 public:
  /// @param part   any PartType
  /// @param where  named in the error if a field is wrong
  template <PartType T>
  Part(T part, std::string_view where = T::kind) {
    part.check(where);
    self_ = std::make_shared<const Model<T>>(std::move(part));
  }

  /// As its type says.
  [[nodiscard]] std::string_view kind() const { return self_->kind(); }
  /// As its type says.
  [[nodiscard]] Contract contract() const { return self_->contract(); }
  [[nodiscard]] Law law(const LiquidState& liquid) const { return self_->law(liquid); }
  /// Its inside bore; empty for a part without one.
  [[nodiscard]] std::optional<Length> bore() const { return self_->bore(); }
  /// Which way liquid can pass: as the type says, or by its contract.
  [[nodiscard]] Passes passes() const { return self_->passes(); }
  /// True when its law is odd in the flow (passages only).
  [[nodiscard]] bool symmetric() const { return self_->symmetric(); }
  /// Reynolds number [-] at a flow [m3/s]; 0 for a part without a bore.
  [[nodiscard]] double reynolds_number(double flow, const LiquidState& liquid) const {
    return self_->reynolds_number(flow, liquid);
  }
  [[nodiscard]] Cautions cautions(const Working& working, const LiquidState& liquid) const {
    return self_->cautions(working, liquid);
  }
  /// The same where only one pressure [Pa gauge] is known: it stands for both ends.
  [[nodiscard]] Cautions cautions(double flow, double pressure, const LiquidState& liquid) const {
    return self_->cautions({.flow = flow, .from = pressure, .to = pressure}, liquid);
  }
  /// Power at its shaft at a flow [m3/s]: [W]; empty for what is no pump, or where no efficiency or power is known.
  [[nodiscard]] std::optional<double> shaft_power(double flow, const LiquidState& liquid) const {
    return self_->shaft_power(flow, liquid);
  }
  /// The share of its drop at a flow [m3/s] that no friction takes: height that liquid falls through air [Pa]. What is
  /// left is lost to the line. 0 but for a tube in which air stands.
  [[nodiscard]] double unused_fall(double flow, const LiquidState& liquid) const {
    return self_->unused_fall(flow, liquid);
  }
  /// How many numeric inputs its type lists (HasInputs); 0 for a type that lists none.
  [[nodiscard]] std::size_t input_count() const { return self_->input_count(); }
  /// @param k  < input_count()
  [[nodiscard]] PartInput input(std::size_t k) const { return self_->input(k); }
  /// The same part with another value of an input [SI], checked. @throws InputError as its type's check
  [[nodiscard]] Part with_input(std::size_t k, double value, std::string_view where) const {
    return self_->with_input(k, value, where);
  }
  /// How its drop answers to its inputs and the liquid at a flow [m3/s]; empty where its type lists no inputs.
  [[nodiscard]] std::optional<DropSlopes> drop_slopes(double flow, const LiquidState& liquid) const {
    return self_->drop_slopes(flow, liquid);
  }
  /// The part as its own type, or nullptr if it is another.
  template <PartType T>
  [[nodiscard]] const T* as() const {
    const auto* model = dynamic_cast<const Model<T>*>(self_.get());
    return model == nullptr ? nullptr : &model->part;
  }

 private:
  struct Interface {
    virtual ~Interface() = default;
    [[nodiscard]] virtual std::string_view kind() const = 0;
    [[nodiscard]] virtual Contract contract() const = 0;
    [[nodiscard]] virtual Law law(const LiquidState& liquid) const = 0;
    [[nodiscard]] virtual std::optional<Length> bore() const = 0;
    [[nodiscard]] virtual Passes passes() const = 0;
    [[nodiscard]] virtual bool symmetric() const = 0;
    [[nodiscard]] virtual double reynolds_number(double flow, const LiquidState& liquid) const = 0;
    [[nodiscard]] virtual Cautions cautions(const Working& working, const LiquidState& liquid) const = 0;
    [[nodiscard]] virtual std::optional<double> shaft_power(double flow, const LiquidState& liquid) const = 0;
    [[nodiscard]] virtual double unused_fall(double flow, const LiquidState& liquid) const = 0;
    [[nodiscard]] virtual std::size_t input_count() const = 0;
    [[nodiscard]] virtual PartInput input(std::size_t k) const = 0;
    [[nodiscard]] virtual Part with_input(std::size_t k, double value, std::string_view where) const = 0;
    [[nodiscard]] virtual std::optional<DropSlopes> drop_slopes(double flow, const LiquidState& liquid) const = 0;
  };
  template <PartType T>
  struct Model final : Interface {
    explicit Model(T p) : part(std::move(p)) {}
    [[nodiscard]] std::string_view kind() const override { return T::kind; }
    [[nodiscard]] Contract contract() const override { return T::contract; }
    [[nodiscard]] Law law(const LiquidState& liquid) const override { return part.law(liquid); }
    [[nodiscard]] std::optional<Length> bore() const override {
      if constexpr (requires(const T& p) { p.inside_bore(); }) return part.inside_bore();
      return std::nullopt;
    }
    [[nodiscard]] Passes passes() const override {
      if constexpr (requires(const T& p) {
                      { p.passes() } -> std::same_as<Passes>;
                    })
        return part.passes();
      return T::contract == Contract::passage ? Passes::both : Passes::forward;
    }
    [[nodiscard]] bool symmetric() const override {
      if constexpr (requires { T::symmetric; }) return T::symmetric;
      return true;
    }
    [[nodiscard]] double reynolds_number(double flow, const LiquidState& liquid) const override {
      if constexpr (requires(const T& p) { p.reynolds_number(flow, liquid); }) {
        return part.reynolds_number(flow, liquid);
      } else {
        const std::optional<Length> d = bore();
        return d ? physics::reynolds_number<double>(flow, si(*d), liquid.density, liquid.viscosity) : 0.0;
      }
    }
    [[nodiscard]] Cautions cautions(const Working& working, const LiquidState& liquid) const override {
      if constexpr (requires(const T& p) { p.cautions(working, liquid); }) {
        return part.cautions(working, liquid);
      } else if constexpr (requires(const T& p) { p.cautions(working.flow, working.from, liquid); }) {
        return part.cautions(working.flow, working.higher(), liquid);
      }
      return {};
    }
    [[nodiscard]] std::optional<double> shaft_power(double flow, const LiquidState& liquid) const override {
      if constexpr (requires(const T& p) { p.shaft_power(flow, liquid); }) return part.shaft_power(flow, liquid);
      return std::nullopt;
    }
    [[nodiscard]] double unused_fall(double flow, const LiquidState& liquid) const override {
      if constexpr (requires(const T& p) { p.unused_fall(flow, liquid); }) return part.unused_fall(flow, liquid);
      return 0.0;
    }
    [[nodiscard]] std::size_t input_count() const override {
      if constexpr (HasInputs<T>) return libflow::input_count<T>;
      return 0;
    }
    [[nodiscard]] PartInput input(std::size_t k) const override {
      if constexpr (HasInputs<T>) return input_of(part, k);
      return {};
    }
    [[nodiscard]] Part with_input(std::size_t k, double value, std::string_view where) const override {
      T other = part;
      if constexpr (HasInputs<T>) set_input(other, k, value);
      return Part(std::move(other), where);
    }
    [[nodiscard]] std::optional<DropSlopes> drop_slopes(double flow, const LiquidState& liquid) const override {
      if constexpr (HasInputs<T>) return libflow::drop_slopes(part, flow, liquid);
      return std::nullopt;
    }
    T part;
  };
  std::shared_ptr<const Interface> self_;
};

}  // namespace libflow
