#include "halfnut/threads/thread_figures.hpp"

#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/series.hpp"

namespace halfnut::threads {

namespace {

/// `Of` takes an AnyThread.
template <class Of>
constexpr FigureRow figure(std::string_view key, std::string_view about, Of /*of*/) {
    using M = std::remove_cvref_t<decltype(Of{}(std::declval<const AnyThread&>()))>;
    return {.key = key,
            .about = about,
            .kind = halfnut::detail::figure_kind<M>(),
            .unit = std::is_same_v<M, double> ? halfnut::detail::suffix_of(key).unit : "",
            .get = [](const void* thread) { return shown(Of{}(*static_cast<const AnyThread*>(thread))); }};
}

const Thread* own_of(const AnyThread& thread) {
    return std::get_if<Thread>(&thread);
}
const FormThread* form_of(const AnyThread& thread) {
    return std::get_if<FormThread>(&thread);
}

std::string classes_of(const AnyThread& thread) {
    if (const Thread* const own = own_of(thread)) {
        return class_text(*own);
    }
    const std::string outside = class_of(thread, Side::external);
    const std::string inside = class_of(thread, Side::internal);
    return outside == inside || inside.empty() ? outside : outside.empty() ? inside : inside + "/" + outside;
}

std::string_view root_of(const AnyThread& thread) {
    const Thread* const own = own_of(thread);
    return own == nullptr || own->form == Form::plain ? "plain"
           : own->form == Form::rounded_root          ? "rounded root"
                                                      : "controlled root";
}

constexpr std::array kFigures{
    figure("system", "ISO metric, Unified, or the name of another form.",
           [](const AnyThread& t) -> std::string {
               return form_of(t) != nullptr ? form_of(t)->form : is_inch(t) ? "Unified" : "ISO metric";
           }),
    figure("form", "Of a form beside ISO metric and Unified; empty for those.",
           [](const AnyThread& t) { return form_of(t) != nullptr ? form_of(t)->form : std::string(); }),
    figure("unit", "The unit that it is designated in: 'in' or 'mm'.",
           [](const AnyThread& t) -> std::string_view { return is_inch(t) ? "in" : "mm"; }),
    figure("series", "Of a Unified thread: UNC, UNF and so on; empty for others.",
           [](const AnyThread& t) {
               const Thread* const own = own_of(t);
               return own != nullptr && own->inch() ? enum_name(own->series) : std::string_view();
           }),
    figure(
        "size", "The size as it is called.",
        [](const AnyThread& t) { return form_of(t) != nullptr ? form_of(t)->size : size_text(*own_of(t)); }),
    figure("prefix", "Of an ISO 7-1 thread: R, Rc or Rp; empty for others.",
           [](const AnyThread& t) { return form_of(t) != nullptr ? form_of(t)->prefix : std::string(); }),
    figure("tolerance_class", "The classes that are given, internal before external.",
           [](const AnyThread& t) { return classes_of(t); }),
    figure("external_class", "The class that is given for the external part; empty where none is.",
           [](const AnyThread& t) { return class_of(t, Side::external); }),
    figure("internal_class", "The class that is given for the internal part; empty where none is.",
           [](const AnyThread& t) { return class_of(t, Side::internal); }),
    figure("root", "'plain', 'rounded root' (UNR) or 'controlled root' (MJ, UNJ).",
           [](const AnyThread& t) { return root_of(t); }),
    figure("hand", "'right' or 'left'.",
           [](const AnyThread& t) -> std::string_view { return is_left_hand(t) ? "left" : "right"; }),
    figure("starts", "Number of starts.", [](const AnyThread& t) { return starts(t); }),
    figure("engagement_group", "By ISO 965-1: S, N or L; empty where none is stated.",
           [](const AnyThread& t) {
               return own_of(t) != nullptr ? enum_name(own_of(t)->group) : std::string_view();
           }),
    figure("engagement_mm", "Stated length of engagement.",
           [](const AnyThread& t) { return own_of(t) != nullptr ? own_of(t)->engagement_mm() : kNaN; }),
    figure("diameter_mm", "Basic major diameter.", [](const AnyThread& t) { return diameter_mm(t); }),
    figure("diameter_in", "Basic major diameter, in.",
           [](const AnyThread& t) {
               return own_of(t) != nullptr ? own_of(t)->diameter_in()
                      : is_inch(t)         ? form_of(t)->diameter
                                           : diameter_mm(t) / kInchMm;
           }),
    figure("pitch_mm", "Axial pitch.", [](const AnyThread& t) { return pitch_mm(t); }),
    figure("pitch_in", "Axial pitch, in.",
           [](const AnyThread& t) {
               return own_of(t) != nullptr ? own_of(t)->pitch_in()
                      : is_inch(t)         ? form_of(t)->pitch
                                           : pitch_mm(t) / kInchMm;
           }),
    figure("lead_mm", "Advance in one turn.", [](const AnyThread& t) { return starts(t) * pitch_mm(t); }),
    figure("lead_in", "Advance in one turn, in.",
           [](const AnyThread& t) {
               return own_of(t) != nullptr ? own_of(t)->lead_in()
                      : is_inch(t)         ? form_of(t)->starts * form_of(t)->pitch
                                           : starts(t) * pitch_mm(t) / kInchMm;
           }),
    figure("tpi", "Threads per inch; none of a thread that is called by its pitch.",
           [](const AnyThread& t) {
               const double tpi = own_of(t) != nullptr ? own_of(t)->tpi() : form_of(t)->tpi;
               return tpi == 0.0 ? kNaN : tpi;
           }),
    figure("tapers", "Whether its diameter changes along it.", [](const AnyThread& t) { return tapers(t); }),
    figure("pipe", "Whether it is a pipe thread.",
           [](const AnyThread& t) { return form_of(t) != nullptr && form_of(t)->pipe(); }),
    figure("lead_screw", "Whether it is of a form for lead screws.",
           [](const AnyThread& t) { return form_of(t) != nullptr && form_of(t)->lead_screw; }),
    figure("has_external", "Whether a class of the external part is given.",
           [](const AnyThread& t) { return has_class(t, Side::external); }),
    figure("has_internal", "Whether a class of the internal part is given.",
           [](const AnyThread& t) { return has_class(t, Side::internal); }),
};

}  // namespace

std::span<const FigureRow> thread_figures() noexcept {
    return kFigures;
}

}  // namespace halfnut::threads
