// The font files, byte for byte, between two symbols each.
#define FONT(name, path)                   \
  .global lensward_font_##name##_begin;    \
  .global lensward_font_##name##_end;      \
  .balign 16;                              \
  lensward_font_##name##_begin:            \
  .incbin path;                            \
  lensward_font_##name##_end:              \
  .byte 0

.section .rodata, "a"
FONT(sans, FONT_SANS)
FONT(sans_bold, FONT_SANS_BOLD)
FONT(sans_italic, FONT_SANS_ITALIC)
FONT(serif, FONT_SERIF)
FONT(serif_italic, FONT_SERIF_ITALIC)
FONT(serif_bold, FONT_SERIF_BOLD)

#if defined(__linux__) && defined(__ELF__)
.section .note.GNU-stack, "", %progbits
#endif
