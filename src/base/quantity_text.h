// Printing of numbers: always the same digits, never the locale's. Values are quantised first (1 mm, 0.1 deg, 1 %), so
// that a difference in the last bit can never show.
#pragma once

#include <string>

#include "base/units.h"

namespace lensward {

// Fixed decimals, no trailing zeros, never "-0": number(1.50, 2) is "1.5".
std::string number(double value, int decimals);

std::string text_of(Metres length);       // "1.35 m", to the centimetre
std::string feet_text(Metres length);     // "7 ft 7 in", to the inch of 25.4 mm (the yard of 1959)
std::string text_of(Millimetres length);  // "35 mm", "0.025 mm": three significant digits at most
std::string text_of(Degrees angle);       // "12 deg", to the degree
std::string text_of(Milliseconds time);   // "3.4 s", to the tenth
std::string text_of(Stops difference);    // "1.3 stops", to the tenth
std::string text_of(Share share);         // "62 %", to the percent
std::string text_of(Points points);       // "41", to the point
std::string text_of(Lux light);           // "118 lux"
std::string clock_text(Moment moment);    // "1:15.4", minutes, seconds and tenths

}  // namespace lensward
