// A job's file as the walk takes it.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/cutting/layout.hpp"
#include "halfnut/job/job_file.hpp"
#include "halfnut/job/lot.hpp"
#include "halfnut/threads/coating.hpp"
#include "said_table.hpp"

namespace halfnut::job {

namespace {

using std::string_view;
using Tag = Given::Tag;

/// The members that a table gives by their names.
template <class Asked>
Asked read(const Question& question, const Given& table, Asking& asking) {
    Asked out;
    for (const AskedRow& row : question.arguments) {
        if (is_given(table, row.name) && row.kind != AskedKind::machine) {
            row.take(&out, at(table, row.name), row, asking);
        }
    }
    return out;
}

void lie(const Given& places, Step& step, const Catalogue& catalogue) {
    step.zero = at(places, "zero").text;
    const Question& question = find_question("positions");
    std::vector<Given> values;
    values.reserve(question.arguments.size());
    for (const AskedRow& row : question.arguments) {
        const string_view name = row.name;
        constexpr string_view kUnit = "_deg";
        const Given& value =
            at(places, name.substr(0, name.size() - (name.ends_with(kUnit) ? kUnit.size() : 0)));
        values.push_back(value.tag == Tag::list && value.items.empty() ? Given{} : value);
    }
    Answer answer;
    try {
        answer = ask(question, values, catalogue);
    } catch (const Error&) {  // said where the places themselves are asked for
        return;
    }
    const auto& found = static_cast<const cutting::Positions*>(answer.record.get())->places;
    double high_x_mm = kNaN;
    double high_y_mm = kNaN;
    for (std::size_t i = 0; i < found.size(); ++i) {
        const double hole_x_mm = found[i].x_mm;
        const double hole_y_mm = found[i].y_mm;
        step.least_x_mm = std::fmin(step.least_x_mm, hole_x_mm);
        step.least_y_mm = std::fmin(step.least_y_mm, hole_y_mm);
        high_x_mm = std::fmax(high_x_mm, hole_x_mm);
        high_y_mm = std::fmax(high_y_mm, hole_y_mm);
        for (std::size_t k = 0; k < i; ++k) {
            const double x = hole_x_mm - found[k].x_mm;
            const double y = hole_y_mm - found[k].y_mm;
            step.apart_mm = std::fmin(step.apart_mm, std::sqrt(x * x + y * y));
        }
    }
    step.spread_x_mm = high_x_mm - step.least_x_mm;
    step.spread_y_mm = high_y_mm - step.least_y_mm;
}

/// The ends of an adjuster that the job speaks of.
void add_ends(const Given& adjuster, std::vector<Joint>& to) {
    const Given& second = at(adjuster, "second");
    for (const Given* const end : {&adjuster, &second}) {
        if (end->tag == Tag::nothing) {
            continue;
        }
        Joint& joint = to.emplace_back();
        joint.external = at(*end, "external").text;
        joint.internal = at(*end, "internal").text;
        joint.adjuster = true;
        joint.second_end = end == &second;
        joint.thread_length_mm = size_mm(is_given(*end, "thread_length") ? *end : adjuster, "thread_length");
        if (!joint.second_end && at(adjuster, "middle").text == "tube") {
            joint.tube_diameter_mm = size_mm(adjuster, "tube_diameter");
            joint.tube_bore_mm = size_mm(adjuster, "bore");
        }
    }
}

/// How long a blank is sawn.
double sawn_mm(const Given& part) {
    try {
        return cut_up(stock_of(part)).blank_mm;
    } catch (const DomainError&) {  // said where the stock is cut up
        return kNaN;
    }
}

threads::BuildUp build_up(const Given& coating, const Catalogue& catalogue) {
    if (is_given(coating, "finish")) {
        return threads::parse_build_up(at(coating, "finish").text, catalogue);
    }
    constexpr double kUmInMm = 1000.0;
    const double least = kUmInMm * size_mm(coating, "build_up");
    return threads::build_up_between(
        least, is_given(coating, "build_up_most") ? kUmInMm * size_mm(coating, "build_up_most") : least);
}

std::string size_said(const Given& stock) {
    std::vector<std::string> sizes;
    for (const string_view key : {"diameter", "bore", "across_flats", "thickness", "width"}) {
        if (is_given(stock, key)) {
            sizes.push_back(at(stock, key).shown());
        }
    }
    return fmt::format("{}", fmt::join(sizes, " × "));
}

}  // namespace

StockAsk stock_of(const Given& part) {
    const Given& stock = at(part, "stock");
    return {.length_mm = size_mm(part, "length"),
            .quantity = bounds::whole<int>(at(part, "quantity").number),
            .kerf_mm = size_or_0(stock, "kerf"),
            .facing_mm = size_or_0(stock, "facing"),
            .stub_mm = size_or_0(stock, "grip"),
            .pieces = bounds::whole<int>(at(stock, "pieces").number),
            .bar_mm = size_mm(stock, "bar_length")};
}

std::vector<Sawn> bars_of(const Given& job) {
    struct Alike {
        std::string stock;
        double bar_mm;
        std::vector<Blank> blanks;
    };
    std::vector<Alike> found;
    for (const Given& part : at(job, "parts").items) {
        const Given& stock = at(part, "stock");
        const StockAsk asked = stock_of(part);
        if (std::isnan(asked.bar_mm) || std::isnan(sawn_mm(part)) ||
            at(stock, "through_spindle").number != 0.0) {
            continue;
        }
        const CutUp cut = cut_up(asked);
        std::string name = fmt::format("{} {} {}, {} long", at(part, "alloy").text, at(stock, "form").text,
                                       size_said(stock), at(stock, "bar_length").shown());
        auto alike =
            std::find_if(found.begin(), found.end(), [&](const Alike& each) { return each.stock == name; });
        if (alike == found.end()) {
            alike = found.insert(found.end(), Alike{std::move(name), asked.bar_mm, {}});
        }
        alike->blanks.insert(alike->blanks.end(), static_cast<std::size_t>(cut.blanks),
                             Blank{std::string(at(part, "name").text), cut.blank_mm, asked.kerf_mm});
    }
    std::vector<Sawn> out;
    out.reserve(found.size());
    for (Alike& each : found) {
        out.push_back({std::move(each.stock), first_fit(std::move(each.blanks), each.bar_mm)});
    }
    return out;
}

std::vector<Part> parts_of(const Given& job, const MachineOf& machine_of, const Catalogue& catalogue,
                           string_view text) {
    Asking asking{catalogue};
    const std::vector<PartLines> lines = lines_of(text);
    std::vector<Part> out;
    for (const Given& part : at(job, "parts").items) {
        const Given& stock = at(part, "stock");
        Part& to = out.emplace_back(read<Part>(part_question(), stock, asking));
        to.name = at(part, "name").text;
        to.alloy = at(part, "alloy").text;
        to.length_mm = size_mm(part, "length");
        to.sawn_mm = sawn_mm(part);
        to.blank_mm = to.through_spindle ? size_mm(stock, "bar_length") : to.sawn_mm;
        for (const string_view size : {"diameter", "across_flats", "thickness"}) {
            if (is_given(stock, size)) {
                to.inch = at(stock, size).unit->system == UnitSystem::inch;
                break;
            }
        }
        if (const Given& coating = at(at(job, "coatings"), at(part, "coating").text);
            coating.tag != Tag::nothing) {
            to.coating = build_up(coating, catalogue);
            to.coating_name = at(coating, "title").text;
        }
        for (const Given& step : at(part, "operations").items) {
            Step& read_step = to.steps.emplace_back(read<Step>(step_question(), step, asking));
            for (const Given* const said : {&step, &part, &job}) {
                if (is_given(*said, "machine")) {
                    read_step.machine = machine_of(at(*said, "machine").text);
                    break;
                }
            }
            if (is_given(step, "places")) {
                lie(at(step, "places"), read_step, catalogue);
            }
        }
        for (const Given& joint : at(part, "joints").items) {
            to.joints.push_back(read<Joint>(joint_question(), joint, asking));
            to.joints.back().bought = is_given(joint, "external_grade");
        }
        if (is_given(part, "adjuster")) {
            add_ends(at(part, "adjuster"), to.joints);
        }
        for (const Given& pair : at(part, "true_to").items) {
            to.true_to.push_back(read<True>(true_question(), pair, asking));
        }
        if (out.size() <= lines.size()) {
            const PartLines& begins = lines[out.size() - 1];
            to.line = begins.part;
            for (std::size_t i = 0; i < to.steps.size(); ++i) {
                to.steps[i].line = i < begins.operations.size() ? begins.operations[i] : begins.part;
            }
        }
    }
    return out;
}

}  // namespace halfnut::job
