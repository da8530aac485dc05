// SPDX-License-Identifier: MIT
/// @file
/// Where the figures of the liquids come from: one list, keyed; every PropertyPoint names a key of it.
#pragma once

#include <string_view>
#include <vector>

namespace libflow {

/// A source of figures.
struct Citation {
  std::string_view key;    ///< as written in PropertyPoint::source
  std::string_view title;  ///< author, title, year
  std::string_view where;  ///< where it was seen, and what is to be known about it
};

/// Every source of the fluid room.
[[nodiscard]] inline const std::vector<Citation>& sources() {
  static const std::vector<Citation> all = {
      {"SR6-08", "IAPWS SR6-08(2011), Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa",
       "iapws.org, releases; verified by the release's table of check values"},
      {"SR1-86",
       "IAPWS SR1-86(1992), Saturation Properties of Ordinary Water Substance; W. Wagner, A. Pruss, J. Phys."
       " Chem. Ref. Data 22 (1993) 783",
       "iapws.org, releases; verified by the release's table of check values"},
      {"user", "Weighed or measured by the user", "the user's own figure"},
      {"FFC",
       "Estimated Physical Characteristics of Fertilizer Material (two-page data note, author not stated, "
       "undated; two copies)",
       "studylib.net/doc/18119690 ; es.scribd.com/document/230568241; lists salt-out, lb/gal, % water, pH; "
       "second page has lb/gal against deg F for 28/30/32 and 10-34-0, only the 20 and 30 F rows and the "
       "40/80 F example for 28-0-0 were seen"},
      {"FERTMAN",
       "United Nations Industrial Development Organization & International Fertilizer Development Center, "
       "Fertilizer Manual, 1998 (as quoted by an encyclopedia article on UAN)",
       "en.wikipedia.org/wiki/UAN"},
      {"IPNI7", "International Plant Nutrition Institute, Nutrient Source Specifics No. 7, Urea-Ammonium Nitrate",
       "studylib.net/doc/8368113"},
      {"IPNI2", "International Plant Nutrition Institute, Nutrient Source Specifics No. 2, Polyphosphate",
       "docslib.org/doc/7691346"},
      {"UNL16",
       "University of Nebraska-Lincoln CropWatch, Setting the Sprayer Flow Rate for Non-Water Solutions, "
       "2016, Table 1",
       "cropwatch.unl.edu/2016/setting-sprayer-flow-rate-non-water-solutions"},
      {"OSU",
       "Oklahoma State University Extension, Using Water to Calibrate Sprayers for Fertilizers and Other "
       "Liquid Solutions, Table 1",
       "extension.okstate.edu fact sheets"},
      {"UGA26", "L. Lazaro, University of Georgia Extension, Liquid Fertilizer Calibration, 2026",
       "precisionagirrigation.extension.uga.edu/2026/04/liquid-fertilizer-calibration"},
      {"PLSPEC",
       "Generic product specification for urea-ammonium nitrate 28/30/32 as sold in Poland (density 20 C "
       "+/-0.01 kg/L, pH 7 +/-0.5, crystallisation)",
       "farmer.pl articles on winter storage of nitrogen solution (density, crystallisation); tolerance and "
       "pH from a retailer page not named here"},
      {"SDS00", "Safety data sheet, urea ammonium nitrate solution 28/30/32, 2000 (supplier not named here)",
       "chemcas.com archive"},
      {"MSU", "Mississippi State University Extension P1466, Fluid Fertilizers",
       "extension.msstate.edu/publications/fluid-fertilizers"},
      {"SALTIX",
       "Salt index list in a liquid-fertilizer retailer's note, 2012 (values agree with J.J. Mortvedt, "
       "Calculating Salt Index, whose article was found but not its table)",
       "retailer web note (not named); Mortvedt article in a soil laboratory web library"},
      {"IAPWS",
       "IAPWS R12-08, Release on the IAPWS Formulation 2008 for the Viscosity of Ordinary Water Substance; "
       "density by the polynomial of G. S. Kell (1975)",
       "iapws.org, releases; verified by the release's table of check values"},
      {"LALI",
       "M. Laliberte, J. Chem. Eng. Data 2007, 52, 321 (viscosity of aqueous solutions) and 2009 update; "
       "coefficient table as kept in an open-source thermophysical library",
       "public repository CalebBell/thermo, thermo/Electrolytes/Laliberte2009.tsv"},
      {"AUS32", "ISO 22241-1 aqueous urea solution 32.5 %, properties as quoted by an encyclopedia article",
       "de.zxc.wiki/wiki/AUS_32"},
      {"UREA8M", "Relative viscosity of 8 mol/L urea at 25 C about 1.66 (biochemistry handbooks)", "memory"},
      {"EST",
       "Computed for this table: Laliberte mixing rule with ammonium nitrate coefficients (found) and a urea"
       " pseudo-component fitted to ISO 22241 32.5 % urea (found) and 8 M urea (memory)",
       "derived here; not a measurement; extrapolates the urea part above 45 % solute"},
      {"MEM", "Recollection; no document seen", "memory"},
      {"NCSU", "C. D. Fountain, NC Cooperative Extension, Duplin County, Liquid Nitrogen Calibration Information, 2014",
       "duplin.ces.ncsu.edu/2014/04/liquid-nitrogen-calibration-information"},
      {"KSU",
       "Kansas State University Research and Extension, Agronomy eUpdate, starter fertilizer for corn, table of "
       "suggested maximum rates with the seed",
       "reprinted in full at no-tillfarmer.com/articles/13243; the table is headed no urea or UAN"},
      {"MSUE", "Michigan State University Extension, Look beyond product rates when considering pop-up fertilizers",
       "canr.msu.edu; limits by cation exchange capacity, row spacing not stated"},
      {"NDSU02", "North Dakota State University, Crop and Pest Report, 2 May 2002",
       "ndsu.edu, crop and pest report archive"},
      {"PSUVT",
       "Penn State Extension county note with M. Alley and others, Virginia Tech, Pop-up and starter fertilizers "
       "for corn",
       "sites.psu.edu/38cmeg/category/starter-fertilizer; row spacing not stated"},
      {"SDSU", "South Dakota State University Extension, Fertilizer placed with seeds; equation of its worksheet",
       "extension.sdstate.edu; equation from a stored copy of the worksheet"},
      {"USCG", "USCG/NOAA chemical datasheet, ammonium nitrate-urea solution",
       "cameochemicals.noaa.gov/report?key=CH8255"},
  };
  return all;
}

/// The citation of a key, or nullptr.
[[nodiscard]] inline const Citation* find_source(std::string_view key) {
  for (const Citation& one : sources()) {
    if (one.key == key) return &one;
  }
  return nullptr;
}

}  // namespace libflow
