#pragma once
// What module.cpp calls, one function a domain, and what the domains share.

#include <pybind11/pybind11.h>

#include <memory>
#include <string_view>
#include <typeinfo>

#include "halfnut/core/overlay.hpp"
#include "halfnut/core/question.hpp"

namespace halfnut::bind {

/// A catalogue as Python holds it: the built-in tables, or a shop's overlay that owns its rows.
class SharedCatalogue {
   public:
    SharedCatalogue();
    [[nodiscard]] const Catalogue& get() const noexcept;
    /// A new catalogue with a table's text laid over this one.
    [[nodiscard]] SharedCatalogue with(const std::string& table, const std::string& text,
                                       const std::string& name, const std::vector<std::size_t>& lines) const;
    /// What was laid over the built-in tables: table, text, name, lines of each.
    [[nodiscard]] pybind11::tuple layers() const;

   private:
    struct Layer {
        std::string table;
        std::string text;
        std::string name;
        std::vector<std::size_t> lines;
    };
    std::vector<Layer> layers_;
    std::shared_ptr<const Overlay> overlay_;
};

/// Evidence items as a list of halfnut._core.Evidence.
pybind11::list evidence_list(std::span<const EvidenceItem> items, std::span<const std::string_view> figures,
                             const Catalogue& catalogue);

/// What is asked, in the question's own struct; values in the order of its arguments.
std::shared_ptr<void> read_question(std::string_view name, const pybind11::tuple& values, Asking& asking);

/// What the core answered to a question; DomainError where it was another question's.
const void* answer_held(pybind11::handle answer, const std::type_info& kind);

/// A value of an answer as Python has it.
pybind11::object value_of(const Value& value);

void bind_batch(pybind11::module_& module);
void bind_catalogue(pybind11::module_& module);
void bind_cutting(pybind11::module_& module);
void bind_formulas(pybind11::module_& module);
void bind_machine(pybind11::module_& module);
void bind_quantity(pybind11::module_& module);
void bind_questions(pybind11::module_& module);
void bind_threads(pybind11::module_& module);

}  // namespace halfnut::bind
