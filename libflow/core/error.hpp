// SPDX-License-Identifier: MIT
/// @file
/// What libflow throws when it is given something wrong: one small family, each saying what, where, what is
/// allowed and, where useful, the nearest valid choice.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace libflow {

/// Base of every exception that libflow throws on purpose.
class Error : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// A value, name or file that cannot be used. The message reads
/// `<where>: <what>; allowed: <allowed>[; did you mean <nearest>?]`.
class InputError : public Error {
 public:
  /// @param where    the field, part or file position, e.g. "hose 'row 3', length"
  /// @param what     what is wrong with it, with the value, e.g. "-2 m is not a length of hose"
  /// @param allowed  what would be accepted, e.g. "more than 0 m, at most 1000 m"; may be empty
  /// @param nearest  the nearest valid name; may be empty
  InputError(std::string where, std::string what, std::string allowed = {}, std::string nearest = {})
      : Error(compose(where, what, allowed, nearest)),
        where_(std::move(where)),
        what_is_wrong_(std::move(what)),
        allowed_(std::move(allowed)),
        nearest_(std::move(nearest)) {}

  /// File, line and field, as known.
  [[nodiscard]] const std::string& where() const noexcept { return where_; }
  /// The value and what is wrong with it, in words.
  [[nodiscard]] const std::string& what_is_wrong() const noexcept { return what_is_wrong_; }
  /// What would be right.
  [[nodiscard]] const std::string& allowed() const noexcept { return allowed_; }
  /// The nearest valid name or value; empty where there is none.
  [[nodiscard]] const std::string& nearest() const noexcept { return nearest_; }

  /// The same error with a wider place in front of it, e.g. a file name before a field.
  [[nodiscard]] InputError inside(std::string_view place) const {
    std::string where(place);
    if (!where_.empty()) where += ": " + where_;
    return {std::move(where), what_is_wrong_, allowed_, nearest_};
  }

 private:
  static std::string compose(const std::string& where, const std::string& what, const std::string& allowed,
                             const std::string& nearest) {
    std::string text = where.empty() ? what : where + ": " + what;
    if (!allowed.empty()) text += "; allowed: " + allowed;
    if (!nearest.empty()) text += "; did you mean '" + nearest + "'?";
    return text;
  }

  std::string where_, what_is_wrong_, allowed_, nearest_;
};

/// A network whose plumbing cannot have an answer (no pressure anywhere, a place with no way out ...).
/// The message names the places and says why.
class IllPosedError : public Error {
 public:
  using Error::Error;
};

}  // namespace libflow
