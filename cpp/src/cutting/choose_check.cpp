#include "choose_lathe.hpp"

namespace halfnut::cutting {
namespace {

constexpr std::uint8_t argument_place(std::string_view name) noexcept {
    for (std::size_t i = 0; i < kChooseArguments.size(); ++i) {
        if (kChooseArguments[i].argument.name == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    return kNoArgument;
}

[[noreturn]] void refuse(const ChooseRequest& request, std::string_view argument) {
    throw_if_failed(Status{StatusCode::inconsistent, argument_place(argument)}, enum_name(request.cut),
                    request, kChooseArguments);
    throw DomainError(std::string(argument));
}

void check(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request) {
    const std::string_view cut = enum_name(request.cut);
    throw_if_failed(check_request(request, kChooseArguments), cut, request, kChooseArguments);
    throw_if_failed(check_setting(catalogue, machine, request.work), cut, request, kChooseArguments);
    const bool milling = is_milling(request.cut);
    if (milling != (machine.kind == machine::Kind::mill)) {
        throw DomainError(std::string(cut) + (milling ? " needs a mill" : " needs a lathe") + ", got the " +
                          std::string(enum_name(machine.kind)) + " " + machine.name);
    }
    const auto given = [&](double value, std::string_view argument) {
        if (std::isnan(value)) {
            refuse(request, argument);
        }
    };
    switch (request.cut) {
        case ChooseCut::turn:
            given(request.length_mm, "length_mm");
            if (!(request.to_mm < request.diameter_mm)) {
                refuse(request, "to_mm");
            }
            if (request.bore_mm >= request.to_mm) {
                refuse(request, "bore_mm");
            }
            break;
        case ChooseCut::bore:
            given(request.length_mm, "length_mm");
            if (!(request.to_mm > request.diameter_mm)) {
                refuse(request, "to_mm");
            }
            if (request.bar_diameter_mm >= request.diameter_mm) {
                refuse(request, "bar_diameter_mm");
            }
            break;
        case ChooseCut::face:
            given(request.off_mm, "off_mm");
            if (request.end_diameter_mm >= request.diameter_mm) {
                refuse(request, "end_diameter_mm");
            }
            if (request.bore_mm >= request.diameter_mm) {
                refuse(request, "bore_mm");
            }
            break;
        default:
            given(request.off_mm, "off_mm");
            given(request.length_mm, "length_mm");
            if (request.cut != ChooseCut::mill_slot) {
                given(request.width_mm, "width_mm");
            }
            if ((request.cut == ChooseCut::mill_slot || request.cut == ChooseCut::mill_pocket) &&
                request.width_mm < request.diameter_mm * (1.0 - kSame)) {
                refuse(request, "width_mm");
            }
            if (request.step_over_mm > request.diameter_mm) {
                refuse(request, "step_over_mm");
            }
    }
}

/// Throw where the machine has no room for the work, or the sizes of how it is held contradict each other.
void check_mounting(const Catalogue& catalogue, const machine::Machine& machine,
                    const ChooseRequest& request) {
    if (is_milling(request.cut)) {
        return;
    }
    if (request.cut != ChooseCut::face && request.stick_out_mm * kSameLength < request.length_mm) {
        throw_short_overhang("stick_out_mm", request.stick_out_mm, request.length_mm, machine);
    }
    if (request.stock_diameter_mm * kSameLength < std::fmax(request.diameter_mm, request.to_mm)) {
        refuse(request, "stock_diameter_mm");
    }
    if (!std::isnan(request.bar_length_mm) && !std::isnan(request.bar_behind_mm)) {
        refuse(request, "bar_behind_mm");
    }
    if (std::isnan(catalogue.alloys[request.work.alloy].youngs_modulus_gpa)) {
        for (const RequestArgument<ChooseRequest>& each : kChooseArguments) {
            const std::string_view name = each.argument.name;
            const bool needed = name == "bar_length_mm" || name == "bar_behind_mm" ||
                                (name == "deflection_mm" && request.cut == ChooseCut::turn);
            if (needed && !std::isnan(request.*(each.member))) {
                throw NotTabulatedError(no_modulus_text(name));
            }
        }
    }
    CutResult found;
    if (!check_room(machine, mounting_of(request), found).ok()) {
        throw_if_no_room(machine, found, request.chuck);
    }
}

}  // namespace

void check_choice(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request) {
    check(catalogue, machine, request);
    check_mounting(catalogue, machine, request);
}

}  // namespace halfnut::cutting
