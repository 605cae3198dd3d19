#include <fmt/format.h>

#include <array>
#include <string>
#include <string_view>

#include "designation_reader.hpp"

namespace halfnut::threads {
namespace {

/// A system of threads that is known by name and has no figures here.
struct ForeignThread {
    std::string_view word;  ///< in capitals, as it stands in a designation
    std::string_view says;
};
constexpr std::array kForeignThreads{
    ForeignThread{"BSPT", "taper British pipe thread: write R1/2 outside, Rc1/2 inside"},
    ForeignThread{"BSPP", "parallel British pipe thread: write G1/2 A outside, G1/2 inside"},
    ForeignThread{"BSP", "British pipe thread: parallel write G1/2, taper R1/2 outside and Rc1/2 inside"},
    ForeignThread{"NPTF", "Dryseal taper pipe thread; NPT has other limits"},
    ForeignThread{"NPSF", "Dryseal straight pipe thread"},
    ForeignThread{"NPSI", "Dryseal straight pipe thread"},
    ForeignThread{"PTF", "Dryseal short taper pipe thread"},
    ForeignThread{"NPSM", "American straight pipe thread for joints"},
    ForeignThread{"NPSL", "American straight pipe thread for lock nuts"},
    ForeignThread{"NPSC", "American straight pipe thread of couplings"},
    ForeignThread{"NPSH", "American hose thread"},
    ForeignThread{"NPS", "American straight pipe thread"},
    ForeignThread{"ANPT", "aeronautical taper pipe thread; NPT has other limits"},
    ForeignThread{"NPTR", "taper pipe thread of railings"},
    ForeignThread{"NH", "American hose coupling thread"},
    ForeignThread{"NST", "American fire hose thread"},
    ForeignThread{"GHT", "garden hose thread"},
    ForeignThread{"PG", "steel conduit thread of 80 degrees"},
    ForeignThread{"BA", "British Association thread of 47.5 degrees"},
    ForeignThread{"BSC", "British cycle thread"},
    ForeignThread{"CEI", "British cycle thread"},
    ForeignThread{"BSB", "British brass thread, 26 to the inch, 55 degrees"},
    ForeignThread{"ME", "model engineers' thread of 55 degrees"},
    ForeignThread{"WHIT", "Whitworth of a size of its own; BSW and BSF are held"},
    ForeignThread{"UNM", "Unified miniature thread"},
    ForeignThread{"STI", "tapped hole of a screw-thread insert"},
    ForeignThread{"EG", "tapped hole of a screw-thread insert"},
    ForeignThread{"RD", "knuckle thread"},
    ForeignThread{"BUTT", "buttress thread"},
    ForeignThread{"BUTTRESS", "buttress thread"},
    ForeignThread{"RMS", "microscope objective thread, 0.7965 in, 36 to the inch, 55 degrees"},
    ForeignThread{"NGT", "gas cylinder valve thread"},
    ForeignThread{"NGO", "gas cylinder outlet thread"},
    ForeignThread{"CGA", "gas cylinder outlet thread"},
    ForeignThread{"API", "oilfield thread"},
};

}  // namespace

std::string foreign_thread(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        if (!is_letter(text[at])) {
            ++at;
            continue;
        }
        std::string word;
        for (; at < text.size() && is_letter(text[at]); ++at) {
            word += upper(text[at]);
        }
        for (const ForeignThread& each : kForeignThreads) {
            if (each.word == word) {
                return fmt::format("{} is not held here ({})", each.word, each.says);
            }
        }
    }
    return {};
}

}  // namespace halfnut::threads
