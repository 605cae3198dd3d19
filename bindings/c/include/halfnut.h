/* Halfnut for any language that calls C: questions and answers as JSON text.
 *
 *     const char* answer = halfnut_ask("{\"question\": \"turn\", \"values\": {\"alloy\": \"6061-T6\", "
 *                                      "\"diameter\": \"1.25 in\"}}");
 *     puts(answer);
 *     halfnut_free(answer);
 *
 * Every text is UTF-8 and ends with a nought. Every function may be called from any thread at any time; none
 * throws, ends the program or keeps what it was given. An answer is that of `halfnut ask` and of --json on
 * the command line.
 */
#ifndef HALFNUT_H
#define HALFNUT_H

#if defined(_WIN32)
#define HALFNUT_API __declspec(dllexport)
#else
#define HALFNUT_API __attribute__((visibility("default")))
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* The answer to one question.
 *
 * Given
 *   json  {"question": "turn", "values": {...}}
 *
 *   A length is text with its unit ("diameter": "1.25 in"), or a number at the key that says the unit
 *   ("diameter_mm": 31.75). A machine is an object, as `halfnut machine show --json` prints one.
 *
 *   Beside the values, "tables": [{"table": "material/alloys", "text": ...}] lays a shop's own tables
 *   over the built-in ones; {"question": "questions"} with them is answered as halfnut_questions() is.
 * Returned
 *   one object, for halfnut_free(); never null. Where there is no answer it is
 *   {"error": {"code": "domain", "message": ..., "argument": ..., "value": ..., "allowed": [...],
 *   "nearest": ...}}; what is not known of these is left out. Codes: domain, unit, not_tabulated,
 *   designation, table, input, memory, unforeseen. New codes and keys may come; an old one keeps its
 *   meaning.
 */
HALFNUT_API const char* halfnut_ask(const char* json);

/* Give an answer of halfnut_ask() back. Null is nothing; what halfnut_questions() and halfnut_version()
 * return stays. */
HALFNUT_API void halfnut_free(const char* answer);

/* Every question with its arguments, ranges and defaults, and the shape of its answer: one JSON Schema
 * (2020-12) whose `oneOf` has a schema each. It stays as long as the library is loaded. */
HALFNUT_API const char* halfnut_questions(void);

/* Version of the library, such as "0.1.0". It stays as long as the library is loaded. */
HALFNUT_API const char* halfnut_version(void);

#ifdef __cplusplus
}
#endif

#endif
