#include "halfnut/knurls/wheel_file.hpp"

#include <fmt/format.h>

#include <optional>
#include <utility>

namespace halfnut::knurls {

namespace {

void read_wheel(FileTable& table, const Given& file, const FileReading& reading, std::vector<Wheel>& to) {
    const std::size_t before = reading.mistakes.size();
    Wheel wheel;
    int teeth = 0;
    table.text("name", wheel.name, Need::required);
    table.text("pitch", wheel.pitch, Need::required);
    table.text("pattern", wheel.pattern, Need::required);
    const std::optional<Quantity> diameter = table.quantity("diameter", Dimension::length);
    table.count("teeth", teeth);
    (void)table.quantity("width", Dimension::length);  // for the person who looks for the wheel
    table.flag("cuts", wheel.cuts);
    if (teeth > 0 && !diameter) {
        table.refuse("teeth need the diameter over the points");
    }
    if (diameter) {
        wheel.measured = fmt::format("{} {}", diameter->value(), diameter->unit().symbol);
        wheel.measured += teeth > 0 ? fmt::format(", {} teeth", teeth) : "";
    }
    table.close();
    for (std::size_t i = before; i < reading.mistakes.size(); ++i) {
        wheel.refusal += i == before ? "cannot be used: " : "; ";
        wheel.refusal += mistake_text(reading.mistakes[i], file);
    }
    if (wheel.name.empty()) {
        wheel.name = fmt::format("wheels[{}]", to.size());
    }
    to.push_back(std::move(wheel));
}

}  // namespace

std::vector<Wheel> wheels_of_file(const Given& file, FileReading& reading) {
    std::vector<Wheel> out;
    read_file(file, reading, [&](FileTable& table) {
        table.tables("wheels", [&](FileTable& row) { read_wheel(row, file, reading, out); });
    });
    return out;
}

}  // namespace halfnut::knurls
