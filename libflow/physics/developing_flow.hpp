// SPDX-License-Identifier: MIT
/// @file
/// What the beginning of a tube takes beyond developed friction, while the velocity profile forms.
#pragma once

#include <cmath>
#include <numbers>

#include <libflow/physics/friction.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Incremental loss K of developing laminar flow and its slope against y = Re D/L (that is, 1/x+):
///   K = (1.25 - 64 c y + 13.76 c y^(3/2)) / (1 + c y^2),   c = 0.00021,
/// which is Shah's apparent Fanning factor
///   f_app Re = 3.44/sqrt(x+) + (1.25/(4 x+) + 16 - 3.44/sqrt(x+)) / (1 + 0.00021/x+^2),   x+ = (L/D)/Re,
/// written as K = 4 x+ (f_app Re - 16), so that nothing cancels and zero flow (y = 0) is an ordinary value.
/// Limits: K = 1.25 in a long tube, 13.76 sqrt(x+) in a very short one.
template <class S>
struct IncrementalLoss {
  S k;      ///< loss coefficient [-]
  S slope;  ///< against bore times Reynolds number over length
};

/// @param y  Re D/L [-], >= 0
/// Source: R. K. Shah, Proc. 3rd Natl. Heat Mass Transfer Conf., IIT Bombay, 1975; R. K. Shah, A. L. London, Laminar
/// Flow Forced Convection in Ducts, 1978, eq. 192 (form and coefficients seen in two open programs that take them from
/// a heat transfer textbook; both limits agree with theory).
template <class S>
[[nodiscard]] IncrementalLoss<S> incremental_loss_laminar(const S& y) {
  using std::sqrt;
  const S c = S(21.0) / S(100000.0);
  const S entry = S(13.76);  // 4 x 3.44
  const S root = sqrt(y);
  const S below = S(1.0) + c * y * y;
  const S k = (S(1.25) + c * y * (entry * root - S(64.0))) / below;
  return {k, S((c * (S(1.5) * entry * root - S(64.0)) - S(2.0) * c * y * k) / below)};
}

/// A tube's development with everything that does not depend on the flow worked out beforehand.
template <class S>
struct Development {
  S re_per_flow;   ///< Reynolds number per flow, 4 rho / (pi D mu) [s/m3]
  S scale;         ///< mu^2 / (2 rho D^2) [Pa]: the extra drop is scale x K Re^2
  S length_ratio;  ///< L/D [-]
  S last;          ///< K Re^2 at Re 2000
  S last_slope;    ///< its slope against Re
};

/// @param length     [m], > 0
/// @param bore       [m], > 0
/// @param density    [kg/m3]
/// @param viscosity  dynamic [Pa s]
template <class S>
[[nodiscard]] Development<S> development(const S& length, const S& bore, const S& density, const S& viscosity) {
  const S ratio = length / bore;
  const S re = S(laminar_limit_re);
  const IncrementalLoss<S> loss = incremental_loss_laminar<S>(S(re / ratio));
  return {S(S(4.0) * density / (S(std::numbers::pi_v<double>) * bore * viscosity)),
          S(viscosity * viscosity / (S(2.0) * density * bore * bore)), ratio, S(loss.k * re * re),
          S(re * (S(2.0) * loss.k + re / ratio * loss.slope))};
}

/// Drop beyond developed friction at flow `q` [m3/s, either sign], K rho V^2/2 with K of incremental_loss_laminar, for
/// liquid that enters with an even velocity. Odd, with a continuous slope, never falling; added to wall friction it
/// rises strictly.
///
/// Valid to Re 2000. Beyond, where turbulence makes the profile form within a few bores and costs little, the extra
/// drop is carried on without a jump: its slope falls evenly to zero at Re 4000, and from there the drop itself stays
/// as it is, so that its share fades with the square of the flow (our own continuation, not published).
template <class S>
[[nodiscard]] Drop<S> drop_development(const S& q, const Development<S>& d) {
  using std::abs;
  const S re = abs(q) * d.re_per_flow;
  const S low = smaller<S>(re, S(laminar_limit_re));
  const S y = low / d.length_ratio;
  const IncrementalLoss<S> loss = incremental_loss_laminar<S>(y);
  const auto laminar = re < laminar_limit_re;
  constexpr double width = turbulent_limit_re - laminar_limit_re;
  const S t = smaller<S>(S((larger<S>(re, S(laminar_limit_re)) - S(laminar_limit_re)) / S(width)), S(1.0));
  const S value =
      select<S>(laminar, S(loss.k * low * low), S(d.last + d.last_slope * S(width) * t * (S(1.0) - t / S(2.0))));
  const S slope = select<S>(laminar, S(low * (S(2.0) * loss.k + y * loss.slope)), S(d.last_slope * (S(1.0) - t)));
  const S dp = d.scale * value;
  return {select<S>(q < S(0.0), S(-dp), dp), S(d.scale * d.re_per_flow * slope)};
}

}  // namespace libflow::physics
