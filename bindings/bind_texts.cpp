#include "convert.hpp"

#include <cstdint>
#include <string_view>
#include <unordered_map>

namespace halfnut::bind {

namespace {

/// Distinct keys and their numbers. The bytes of a key must outlive it.
using Known = std::unordered_map<std::string_view, std::int32_t>;

/// A text that has UTF-8: half of a surrogate pair is spelled out, so that the row is refused and not the
/// batch.
py::object spelled_out(const py::str& text) {
    py::ssize_t size = 0;
    if (PyUnicode_AsUTF8AndSize(text.ptr(), &size) != nullptr) {
        return text;
    }
    PyErr_Clear();
    return text.attr("encode")("utf-8", "backslashreplace").attr("decode")("utf-8");
}

py::tuple code_array(const py::array& values) {
    const py::ssize_t rows = values.shape(0);
    const auto width = static_cast<std::size_t>(values.itemsize());
    const auto* const data = static_cast<const char*>(values.data());
    py::array_t<std::int32_t> codes(rows);
    std::int32_t* const out = codes.mutable_data();
    Known known;
    py::list texts;
    for (py::ssize_t row = 0; row < rows; ++row) {
        const std::string_view key{data + static_cast<std::size_t>(row) * width, width};
        const auto [at, is_new] = known.try_emplace(key, static_cast<std::int32_t>(known.size()));
        out[row] = at->second;
        if (is_new) {
            texts.append(spelled_out(py::str(values[py::int_(row)])));
        }
    }
    return py::make_tuple(codes, texts);
}

py::tuple code_objects(const py::object& values) {
    // A tuple of its own: nobody else can change it, and it keeps the texts whose bytes are looked at.
    const auto items = py::reinterpret_steal<py::tuple>(PySequence_Tuple(values.ptr()));
    if (!items) {
        throw py::error_already_set();
    }
    const auto rows = static_cast<py::ssize_t>(items.size());
    py::array_t<std::int32_t> codes(rows);
    std::int32_t* const out = codes.mutable_data();
    Known known;
    py::list texts;
    py::list kept;  // spellings of texts that have no UTF-8 of their own
    for (py::ssize_t row = 0; row < rows; ++row) {
        PyObject* const object = PyTuple_GET_ITEM(items.ptr(), row);
        out[row] = -1;
        if (PyUnicode_Check(object) == 0) {
            continue;
        }
        py::ssize_t size = 0;
        const char* bytes = PyUnicode_AsUTF8AndSize(object, &size);
        if (bytes == nullptr) {  // half of a surrogate pair
            PyErr_Clear();
            const auto spelled = py::reinterpret_steal<py::object>(
                PyUnicode_AsEncodedString(object, "utf-8", "surrogatepass"));
            if (!spelled) {
                throw py::error_already_set();
            }
            kept.append(spelled);
            bytes = PyBytes_AS_STRING(spelled.ptr());
            size = PyBytes_GET_SIZE(spelled.ptr());
        }
        const std::string_view key{bytes, static_cast<std::size_t>(size)};
        const auto [at, is_new] = known.try_emplace(key, static_cast<std::int32_t>(known.size()));
        out[row] = at->second;
        if (is_new) {
            texts.append(spelled_out(py::reinterpret_borrow<py::str>(object)));
        }
    }
    return py::make_tuple(codes, texts);
}

}  // namespace

py::tuple code_texts(const py::object& values) {
    if (py::isinstance<py::array>(values)) {
        const auto array = py::reinterpret_borrow<py::array>(values);
        if (array.dtype().kind() == 'U') {
            return code_array(array);
        }
    }
    return code_objects(values);
}

}  // namespace halfnut::bind
