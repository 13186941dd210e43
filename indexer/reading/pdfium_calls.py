"""The pdfium functions that reading calls most often, taking and giving plain addresses.

pypdfium2's own bindings build a pointer object for every call; these are twice as fast. A struct or a number
to be written into is given by its address (ctypes.addressof), a page or an object by its handle's value.
"""

import ctypes

import pypdfium2.raw as pdfium

_ADDRESS = ctypes.c_void_p
_INT = ctypes.c_int
_ULONG = ctypes.c_ulong


def address_of(handle) -> int:
    """The plain address of a handle of pypdfium2's own."""
    return ctypes.cast(handle, ctypes.c_void_p).value


def _plain(function, result, *arguments):
    return ctypes.PYFUNCTYPE(result, *arguments)(ctypes.cast(function, ctypes.c_void_p).value)


count_chars = _plain(pdfium.FPDFText_CountChars, _INT, _ADDRESS)
get_text = _plain(pdfium.FPDFText_GetText, _INT, _ADDRESS, _INT, _INT, _ADDRESS)
char_loose_box = _plain(pdfium.FPDFText_GetLooseCharBox, _INT, _ADDRESS, _INT, _ADDRESS)
char_origin = _plain(pdfium.FPDFText_GetCharOrigin, _INT, _ADDRESS, _INT, _ADDRESS, _ADDRESS)
char_unicode = _plain(pdfium.FPDFText_GetUnicode, ctypes.c_uint, _ADDRESS, _INT)
char_is_hyphen = _plain(pdfium.FPDFText_IsHyphen, _INT, _ADDRESS, _INT)
char_matrix = _plain(pdfium.FPDFText_GetMatrix, _INT, _ADDRESS, _INT, _ADDRESS)
char_font_size = _plain(pdfium.FPDFText_GetFontSize, ctypes.c_double, _ADDRESS, _INT)
char_font_info = _plain(pdfium.FPDFText_GetFontInfo, _ULONG, _ADDRESS, _INT, _ADDRESS, _ULONG, _ADDRESS)
char_text_object = _plain(pdfium.FPDFText_GetTextObject, _ADDRESS, _ADDRESS, _INT)
text_font = _plain(pdfium.FPDFTextObj_GetFont, _ADDRESS, _ADDRESS)
text_render_mode = _plain(pdfium.FPDFTextObj_GetTextRenderMode, _INT, _ADDRESS)

page_object_count = _plain(pdfium.FPDFPage_CountObjects, _INT, _ADDRESS)
page_object = _plain(pdfium.FPDFPage_GetObject, _ADDRESS, _ADDRESS, _INT)
form_object_count = _plain(pdfium.FPDFFormObj_CountObjects, _INT, _ADDRESS)
form_object = _plain(pdfium.FPDFFormObj_GetObject, _ADDRESS, _ADDRESS, _ULONG)
object_type = _plain(pdfium.FPDFPageObj_GetType, _INT, _ADDRESS)
object_bounds = _plain(pdfium.FPDFPageObj_GetBounds, _INT, _ADDRESS, _ADDRESS, _ADDRESS, _ADDRESS, _ADDRESS)
object_matrix = _plain(pdfium.FPDFPageObj_GetMatrix, _INT, _ADDRESS, _ADDRESS)
object_fill_color = _plain(
    pdfium.FPDFPageObj_GetFillColor, _INT, _ADDRESS, _ADDRESS, _ADDRESS, _ADDRESS, _ADDRESS
)
path_draw_mode = _plain(pdfium.FPDFPath_GetDrawMode, _INT, _ADDRESS, _ADDRESS, _ADDRESS)
path_segment_count = _plain(pdfium.FPDFPath_CountSegments, _INT, _ADDRESS)
path_segment = _plain(pdfium.FPDFPath_GetPathSegment, _ADDRESS, _ADDRESS, _INT)
segment_type = _plain(pdfium.FPDFPathSegment_GetType, _INT, _ADDRESS)
segment_point = _plain(pdfium.FPDFPathSegment_GetPoint, _INT, _ADDRESS, _ADDRESS, _ADDRESS)
segment_closes = _plain(pdfium.FPDFPathSegment_GetClose, _INT, _ADDRESS)
