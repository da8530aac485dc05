// SPDX-License-Identifier: MIT
/// @file
/// Any part: what the network keeps of a hose, an orifice, a check valve or a part that somebody else wrote.
#pragma once

#include <concepts>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include <libflow/core/caution.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/parts/law.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// What every part promises about its law; `expect_lawful` holds it to that.
enum class Contract {
  passage,  ///< drop continuous with a continuous slope, strictly rising, positive slope at zero flow, odd
  one_way   ///< no flow until a threshold (negative: a pump's gain), then a passage
};

/// A type that can join a Network:
///   static constexpr std::string_view kind   one word or two in the trade's terms
///   static constexpr Contract contract
///   void check(std::string_view where) const throws InputError naming field, value, allowed
///   Law law(const LiquidState&) const
/// and, where they make sense,
///   Length inside_bore() const               for velocity, Reynolds number and static pressure
///   Cautions cautions(flow [m3/s], inlet pressure [Pa gauge], const LiquidState&) const
///   Passes passes() const                    where one part can be shut and another of its type open
///   static constexpr bool symmetric          false: loses more one way than the other (default true)
///   double reynolds_number(flow [m3/s], const LiquidState&) const   where its liquid is not the network's
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

  [[nodiscard]] std::string_view kind() const { return self_->kind(); }
  [[nodiscard]] Contract contract() const { return self_->contract(); }
  [[nodiscard]] Law law(const LiquidState& liquid) const { return self_->law(liquid); }
  [[nodiscard]] std::optional<Length> bore() const { return self_->bore(); }
  /// Which way liquid can pass: as the type says, or by its contract.
  [[nodiscard]] Passes passes() const { return self_->passes(); }
  /// True when its law is odd in the flow (passages only).
  [[nodiscard]] bool symmetric() const { return self_->symmetric(); }
  /// Reynolds number [-] at a flow [m3/s]; 0 for a part without a bore.
  [[nodiscard]] double reynolds_number(double flow, const LiquidState& liquid) const {
    return self_->reynolds_number(flow, liquid);
  }
  [[nodiscard]] Cautions cautions(double flow, double inlet_pressure, const LiquidState& liquid) const {
    return self_->cautions(flow, inlet_pressure, liquid);
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
    [[nodiscard]] virtual Cautions cautions(double flow, double inlet_pressure, const LiquidState& liquid) const = 0;
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
      return T::contract == Contract::one_way ? Passes::forward : Passes::both;
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
    [[nodiscard]] Cautions cautions(double flow, double inlet_pressure, const LiquidState& liquid) const override {
      if constexpr (requires(const T& p) { p.cautions(flow, inlet_pressure, liquid); }) {
        return part.cautions(flow, inlet_pressure, liquid);
      }
      return {};
    }
    T part;
  };
  std::shared_ptr<const Interface> self_;
};

}  // namespace libflow
