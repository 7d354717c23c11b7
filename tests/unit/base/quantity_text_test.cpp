#include "base/quantity_text.h"

#include <catch2/catch.hpp>
#include <clocale>
#include <limits>

using namespace lensward;

TEST_CASE("numbers have no trailing zeros and no minus before nothing") {
  CHECK(number(1.50, 2) == "1.5");
  CHECK(number(-0.004, 2) == "0");
  CHECK(number(-0.0, 3) == "0");
  CHECK(number(0.05, 2) == "0.05");
  CHECK(number(-0.05, 2) == "-0.05");
  CHECK(number(100, 0) == "100");
  CHECK(number(100, 2) == "100");
  CHECK(number(9.999, 2) == "10");
  CHECK(number(-12.3456, 3) == "-12.346");
}

TEST_CASE("halves go away from zero whatever the last bit") {
  CHECK(number(0.125, 2) == "0.13");
  CHECK(number(-0.125, 2) == "-0.13");
  // In binary 1.005 lies just below the half and 1.015 just below too; printf gives 1.00 and 1.01.
  CHECK(number(1.005, 2) == "1.01");
  CHECK(number(1.015, 2) == "1.02");
  CHECK(number(2.5, 0) == "3");
  CHECK(number(2.4999, 0) == "2");
}

TEST_CASE("numbers beyond the ordinary") {
  CHECK(number(1e15, 2) == "1000000000000000");
  CHECK(number(std::numeric_limits<double>::infinity(), 2) == "inf");
  CHECK(number(std::numeric_limits<double>::quiet_NaN(), 2) == "nan");
}

TEST_CASE("the host's locale changes nothing") {
  // Either may be missing on a host; the default locale then stands, and the check still holds.
  if (!std::setlocale(LC_ALL, "de_DE.UTF-8")) std::setlocale(LC_ALL, "fr_FR.UTF-8");
  CHECK(number(1234.5, 1) == "1234.5");
  std::setlocale(LC_ALL, "C");
}

TEST_CASE("quantities") {
  CHECK(text_of(Metres{1.349}) == "1.35 m");
  CHECK(text_of(Metres{-0.004}) == "0 m");
  // The yard is 0.9144 m by the agreement of 1959.
  CHECK(feet_text(Metres{0.9144}) == "3 ft 0 in");
  CHECK(feet_text(Metres{2.31}) == "7 ft 7 in");
  CHECK(feet_text(Metres{0.01}) == "0 ft 0 in");
  CHECK(feet_text(Metres{-0.2}) == "-0 ft 8 in");
  CHECK(feet_text(Metres{-0.01}) == "0 ft 0 in");
  CHECK(text_of(Millimetres{35}) == "35 mm");
  CHECK(text_of(Millimetres{0.025}) == "0.025 mm");
  CHECK(text_of(Millimetres{24.89}) == "24.9 mm");
  CHECK(text_of(Millimetres{0.02534}) == "0.0253 mm");
  CHECK(text_of(Millimetres{9.996}) == "10 mm");
  CHECK(text_of(Millimetres{1234}) == "1230 mm");
  CHECK(text_of(Millimetres{0}) == "0 mm");
  CHECK(text_of(Degrees{11.7}) == "12 deg");
  CHECK(text_of(3400_ms) == "3.4 s");
  CHECK(text_of(3450_ms) == "3.5 s");
  CHECK(text_of(Milliseconds{-20}) == "0 s");
  CHECK(text_of(Stops{1.34}) == "1.3 stops");
  CHECK(text_of(Stops{1}) == "1 stop");
  CHECK(text_of(Share{0.617}) == "62 %");
  CHECK(text_of(Points{40.6}) == "41");
  CHECK(text_of(Lux{118.2}) == "118 lux");
  CHECK(text_of(Lux{0.44}) == "0.4 lux");
}

TEST_CASE("clock times carry their tenths") {
  CHECK(clock_text(75400_ms) == "1:15.4");
  CHECK(clock_text(0_ms) == "0:00.0");
  CHECK(clock_text(59960_ms) == "1:00.0");
  CHECK(clock_text(3600000_ms) == "60:00.0");
  CHECK(clock_text(Milliseconds{-1500}) == "-0:01.5");
  CHECK(clock_text(Milliseconds{-20}) == "0:00.0");
}
