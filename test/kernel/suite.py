"""The public test suite of Jupyter kernels, with samples for each of its tests. Run by protocolSuite.test.ts with JUPYTER_PATH set."""
import unittest

import jupyter_kernel_test

FIGURE = "({ [Symbol.for('Jupyter.display')]: () => ({ 'text/html': '<b>bold</b>', 'text/plain': 'bold' }) })"


class AirtidesKernel(jupyter_kernel_test.KernelTests):
    kernel_name = "airtides"
    language_name = "typescript"
    file_extension = ".ts"
    code_hello_world = "console.log('hello, world')"
    code_stderr = "console.error('oops')"
    completion_samples = [
        {"text": "Math.sq", "matches": {"sqrt", "SQRT1_2", "SQRT2"}},
        {"text": "const air = 1; ai", "matches": {"air"}},
        # Code points and UTF-16 units differ behind this sign.
        {"text": "'\U0001f321'; Math.hypo", "matches": {"hypot"}},
    ]
    complete_code_samples = ["1", "const a = { b: 1 };", "function f() { return 1 }", "<number>(1 as unknown)", "await Promise.resolve(1)", "`a${1}b`", "", "Math.sqrt?"]
    incomplete_code_samples = ["function f() {", "const a = [1,", "`open", "/* open", "1 +", "f(", "if (a)", "class A {\n  b = 1;"]
    invalid_code_samples = ["let 1a", "const = 3", "}", "'open", "f(]"]
    code_page_something = "Math.sqrt?"
    code_generate_error = "throw new Error('no')"
    code_execute_result = [
        {"code": "1 + 2 + 3", "result": "6"},
        {"code": "[1, 2, 3]", "result": "[ 1, 2, 3 ]"},
        {"code": "null", "result": "null"},
        {"code": FIGURE, "mime": "text/html", "result": "<b>bold</b>"},
        {"code": "1 + 1 + 4", "result": "6"},
        {"code": "1 + 2 + 3", "result": "6"},
    ]
    code_display_data = [
        {"code": "display.html('<i>i</i>')", "mime": "text/html"},
        {"code": "display({ a: 1 })", "mime": "text/plain"},
        {"code": "import { display as shown } from 'tslab'; shown.svg('<svg/>')", "mime": "image/svg+xml"},
    ]
    code_history_pattern = "1 ? 2*"
    supported_history_operations = ("tail", "range", "search")
    code_inspect_sample = "Math.sqrt"
    code_clear_output = "display.clear()"



if __name__ == "__main__":
    unittest.main(verbosity=2)
