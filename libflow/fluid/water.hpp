// SPDX-License-Identifier: MIT
/// @file
/// Water: density, viscosity and vapour pressure of the liquid by the formulations of the International Association
/// for the Properties of Water and Steam (IAPWS).
///
/// Functions are plain SI and templated on the scalar (double, multiprecision, a pack with pow, exp and sqrt). They do
/// not check their argument: the ranges stand beside them as data, and Liquid::at() checks and flags.
#pragma once

#include <cmath>

#include <libflow/core/range.hpp>

namespace libflow {

/// Temperatures of liquid water at 0.1 MPa [K], stable and metastable, where water_density and water_viscosity hold.
/// Source: IAPWS SR6-08(2011), section 2.
inline constexpr Range water_temperature{253.15, 383.15};

/// Density of liquid water at 0.1 MPa [kg/m3]:
/// v = (R Tr / p0) (a5 + sum a_i alpha^n_i + sum b_i beta^m_i), alpha = Tr/(593 K - T), beta = Tr/(T - 232 K).
/// @param t  temperature [K], water_temperature; outside: computed, not trustworthy (singular at 232 K)
/// Source: IAPWS SR6-08(2011), Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa, eq. for v and
/// tables of coefficients (as open libraries carry them; verified by the release's check table).
template <class S>
[[nodiscard]] S water_density(const S& t) {
  using std::pow;
  const S alpha = 10.0 / (593.0 - t);
  const S beta = 10.0 / (t - 232.0);
  const S sum =
      1.93763157e-2 + 6.74458446e3 * pow(alpha, 4) - 2.22521604e5 * pow(alpha, 5) + 1.00231247e8 * pow(alpha, 7) -
      1.63552118e9 * pow(alpha, 8) + 8.32299658e9 * pow(alpha, 9) +
      beta *
          (5.78545292e-3 +
           beta * (-1.53195665e-2 +
                   beta * (3.11337859e-2 + beta * (-4.23546241e-2 + beta * (3.38713507e-2 - beta * 1.19946761e-2)))));
  constexpr double gas_constant = 461.51805;  // J/(kg K), the value of this release
  return 1e5 / (gas_constant * 10.0 * sum);
}

/// Dynamic viscosity of liquid water at 0.1 MPa [Pa s]: four powers of T/300 K.
/// @param t  temperature [K], water_temperature; outside: computed, not trustworthy
/// Source: IAPWS SR6-08(2011), eq. 7. Differs from the full formulation (water_viscosity_r12_08) by at most 0.003 %
/// from 0 to 40 C.
template <class S>
[[nodiscard]] S water_viscosity(const S& t) {
  using std::pow;
  const S x = t / 300.0;
  return 1e-6 * (280.68 * pow(x, -1.9) + 511.45 * pow(x, -7.7) + 61.131 * pow(x, -19.6) + 0.45903 * pow(x, -40.0));
}

/// Dynamic viscosity of water and steam from temperature and density [Pa s], without the critical enhancement (which
/// is below 0.1 % away from the critical point, 647 K).
/// @param t    temperature [K], 273.16 to 1173.15
/// @param rho  density [kg/m3], 0 to about 1200
/// Source: IAPWS R12-08 (2008), Release on the IAPWS Formulation 2008 for the Viscosity of Ordinary Water Substance,
/// eqs. 10 to 12, tables 1 and 2 (coefficients from memory, verified by the release's table
/// of check values).
template <class S>
[[nodiscard]] S water_viscosity_r12_08(const S& t, const S& rho) {
  using std::exp;
  using std::pow;
  using std::sqrt;
  const S tb = t / 647.096;
  const S mu0 = 100.0 * sqrt(tb) / (1.67752 + 2.20462 / tb + 0.6366564 / (tb * tb) - 0.241605 / (tb * tb * tb));
  // Row i: power of (1/Tb - 1); column j: power of (rho_b - 1).
  constexpr double h[6][7] = {{5.20094e-1, 2.22531e-1, -2.81378e-1, 1.61913e-1, -3.25372e-2, 0, 0},
                              {8.50895e-2, 9.99115e-1, -9.06851e-1, 2.57399e-1, 0, 0, 0},
                              {-1.08374, 1.88797, -7.72479e-1, 0, 0, 0, 0},
                              {-2.89555e-1, 1.26613, -4.89837e-1, 0, 6.98452e-2, 0, -4.35673e-3},
                              {0, 0, -2.57040e-1, 0, 0, 8.72102e-3, 0},
                              {0, 1.20573e-1, 0, 0, 0, 0, -5.93264e-4}};
  const S x = 1.0 / tb - 1.0;
  const S rho_b = rho / 322.0;
  const S y = rho_b - 1.0;
  S sum = 0.0 * x;
  for (int i = 5; i >= 0; --i) {
    S row = 0.0 * y + h[i][6];
    for (int j = 5; j >= 0; --j) row = row * y + h[i][j];
    sum = sum * x + row;
  }
  return 1e-6 * mu0 * exp(rho_b * sum);
}

/// Temperatures where water_vapour_pressure holds [K]: triple point to critical point.
inline constexpr Range water_vapour_temperature{273.16, 647.096};

/// Vapour pressure of water [Pa absolute]:
/// ln(p/pc) = (Tc/T) (a1 v + a2 v^1.5 + a3 v^3 + a4 v^3.5 + a5 v^4 + a6 v^7.5), v = 1 - T/Tc.
/// @param t  temperature [K], water_vapour_temperature; below, down to 233 K, it continues smoothly over supercooled
///           water and is far below any pressure that matters to plumbing (less than 0.62 kPa)
/// Source: IAPWS SR1-86(1992), eq. 1; W. Wagner, A. Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783 (coefficients from
/// memory, verified by the release's table of check values).
template <class S>
[[nodiscard]] S water_vapour_pressure(const S& t) {
  using std::exp;
  using std::sqrt;
  const S v = 1.0 - t / 647.096;
  const S root = sqrt(v);
  const S v3 = v * v * v;
  const S sum = -7.85951783 * v + 1.84408259 * v * root - 11.7866497 * v3 + 22.6807411 * v3 * root -
                15.9618719 * v3 * v + 1.80122502 * v3 * v3 * v * root;
  return 22.064e6 * exp(647.096 / t * sum);
}

/// Vapour pressure of water by the industrial formulation [Pa absolute], a neighbour to check the other against.
/// @param t  temperature [K], 273.15 to 647.096
/// Source: IAPWS R7-97(2012), region 4, eq. 30, table 34 (coefficients from memory, verified by
/// table 35).
template <class S>
[[nodiscard]] S water_vapour_pressure_if97(const S& t) {
  using std::sqrt;
  const S theta = t - 0.23855557567849 / (t - 0.65017534844798e3);
  const S a = theta * theta + 0.11670521452767e4 * theta - 0.72421316703206e6;
  const S b = -0.17073846940092e2 * theta * theta + 0.12020824702470e5 * theta - 0.32325550322333e7;
  const S c = 0.14915108613530e2 * theta * theta - 0.48232657361591e4 * theta + 0.40511340542057e6;
  const S root = 2.0 * c / (sqrt(b * b - 4.0 * a * c) - b);
  return 1e6 * root * root * root * root;
}

}  // namespace libflow
