// SPDX-License-Identifier: MIT
#include <libflow/toolbar/tolerances.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/triangular.hpp>
#include <boost/math/statistics/univariate_statistics.hpp>
#include <fmt/core.h>

#include <libflow/core/error.hpp>

namespace libflow {

void Distribution::check(std::string_view where) const {
  const bool ends = low <= 0.0 && high >= 0.0 && low < high && std::isfinite(low) && std::isfinite(high);
  switch (kind) {
    case Kind::normal:
      if (deviation > 0.0 && std::isfinite(deviation)) return;
      throw InputError(fmt::format("{}, normal", where), fmt::format("{:g}", deviation), "more than 0");
    case Kind::uniform:
    case Kind::triangular:
      if (ends) return;
      throw InputError(fmt::format("{}, {}", where, kind == Kind::uniform ? "uniform" : "triangular"),
                       fmt::format("from {:g} to {:g}", low, high), "from 0 or below to 0 or above, and not both 0");
    case Kind::listed:
      if (values.size() >= 2 && std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); }) &&
          std::is_sorted(values.begin(), values.end()) && values.front() < values.back()) {
        return;
      }
      throw InputError(fmt::format("{}, listed", where), "not two or more different measured differences",
                       "measured differences from the layout's value");
  }
}

double Distribution::quantile(double u) const {
  switch (kind) {
    case Kind::normal:
      return boost::math::quantile(boost::math::normal(0.0, deviation), u);
    case Kind::uniform:
      return low + u * (high - low);
    case Kind::triangular:
      return boost::math::quantile(boost::math::triangular(low, 0.0, high), u);
    case Kind::listed:
      return values[std::min(values.size() - 1, static_cast<std::size_t>(u * static_cast<double>(values.size())))];
  }
  return 0.0;
}

double Distribution::mean() const {
  switch (kind) {
    case Kind::normal:
      return 0.0;
    case Kind::uniform:
      return 0.5 * (low + high);
    case Kind::triangular:
      return (low + high) / 3.0;
    case Kind::listed:
      return boost::math::statistics::mean(values);
  }
  return 0.0;
}

double Distribution::variance() const {
  switch (kind) {
    case Kind::normal:
      return deviation * deviation;
    case Kind::uniform:
      return (high - low) * (high - low) / 12.0;
    case Kind::triangular:
      return (low * low + high * high - low * high) / 18.0;
    case Kind::listed:
      return boost::math::statistics::variance(values);
  }
  return 0.0;
}

}  // namespace libflow
