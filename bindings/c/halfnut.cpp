// The C face: JSON in, JSON out, and nothing thrown.

#include "halfnut.h"

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <deque>
#include <exception>
#include <new>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/builtin.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/json.hpp"

namespace {

using halfnut::Given;
using Json = nlohmann::ordered_json;

/// What there is when there is no memory to say it.
constexpr const char* kNoMemory =
    R"({"error": {"code": "memory", "message": "there is not enough memory for this"}})";

/// A JSON text as what was given, with what it views.
class Asked {
   public:
    explicit Asked(std::string_view text) : json_(parsed(text)), given_(take(json_)) {}
    [[nodiscard]] const Given& given() const { return given_; }

   private:
    static Json parsed(std::string_view text) {
        if (text.size() > halfnut::bounds::kFileBytes) {
            throw halfnut::DomainError("the question is longer than a million bytes");
        }
        // what is nested deeper than any question is refused before it is kept
        const auto shallow = [](int depth, Json::parse_event_t /*event*/, const Json& /*value*/) {
            if (depth > halfnut::bounds::kNesting) {
                throw halfnut::DomainError("the question is nested too deeply");
            }
            return true;
        };
        try {
            return Json::parse(text.begin(), text.end(), shallow);
        } catch (const Json::exception& error) {
            const std::string_view why = error.what();
            throw halfnut::DomainError("the question is no JSON: " +
                                       std::string(why.substr(std::min(why.find("] ") + 2, why.size()))));
        }
    }

    Given take(const Json& value) {
        switch (value.type()) {
            case Json::value_t::null:
                return {};
            case Json::value_t::boolean:
                return {.tag = Given::Tag::flag, .number = value.get<bool>() ? 1.0 : 0.0};
            case Json::value_t::string:
                return {.tag = Given::Tag::text, .text = value.get_ref<const std::string&>()};
            case Json::value_t::array: {
                std::vector<Given>& items = lists_.emplace_back();
                for (const Json& item : value) {
                    items.push_back(take(item));
                }
                return {.tag = Given::Tag::list, .text = looks(value), .items = items};
            }
            case Json::value_t::object: {
                std::vector<Given>& items = lists_.emplace_back();
                std::vector<std::string_view>& keys = keys_.emplace_back();
                for (auto item = value.begin(); item != value.end(); ++item) {
                    keys.emplace_back(item.key());
                    items.push_back(take(*item));
                }
                return {.tag = Given::Tag::object, .text = looks(value), .items = items, .keys = keys};
            }
            default:
                return {.tag = Given::Tag::number, .number = value.get<double>()};
        }
    }
    /// As a message quotes it.
    std::string_view looks(const Json& value) {
        return looks_.emplace_back(halfnut::bounds::shown(value.dump()));
    }

    std::deque<std::vector<Given>> lists_;  // a deque leaves what stands in it where it is
    std::deque<std::vector<std::string_view>> keys_;
    std::deque<std::string> looks_;
    Json json_;
    Given given_;
};

std::string answered(std::string_view json) {
    try {
        const Asked asked(json);
        return halfnut::answered_json(asked.given(), halfnut::builtin());
    } catch (const std::exception& error) {
        return halfnut::error_json(error);
    }
}

const std::string& questions() {
    static const std::string kText = halfnut::schemas_json(halfnut::builtin());
    return kText;
}

/// Whatever `made` throws ends here.
template <class Made>
auto held(const Made& made, decltype(made()) otherwise) noexcept {
    try {
        return made();
    } catch (...) {
        return otherwise;
    }
}

}  // namespace

const char* halfnut_ask(const char* json) {
    return held(
        [&]() -> const char* {
            const std::string answer =
                answered(json == nullptr ? std::string_view() : std::string_view(json));
            auto* const out = static_cast<char*>(std::malloc(answer.size() + 1));
            if (out == nullptr) {
                return kNoMemory;
            }
            std::memcpy(out, answer.c_str(), answer.size() + 1);
            return out;
        },
        kNoMemory);
}

void halfnut_free(const char* answer) {
    if (answer != kNoMemory && answer != halfnut_questions() && answer != halfnut_version()) {
        std::free(const_cast<char*>(answer));
    }
}

const char* halfnut_questions(void) {
    return held([] { return questions().c_str(); }, kNoMemory);
}

const char* halfnut_version(void) {
    return HALFNUT_VERSION;
}
