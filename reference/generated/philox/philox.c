/* Blocks of the counter-based generator Philox 4x32 with ten rounds, by its authors' own library:
 *     gcc -O1 philox.c -o philox && ./philox > values.json
 * Needs the headers of Random123 1.14.0 (Debian: librandom123-dev). */
#include <Random123/philox.h>
#include <stdio.h>

static int count = 0;

static void block(uint32_t a, uint32_t b, uint32_t c, uint32_t d, uint32_t k0, uint32_t k1) {
  philox4x32_ctr_t counter = {{a, b, c, d}};
  philox4x32_key_t key = {{k0, k1}};
  philox4x32_ctr_t out = philox4x32_R(10, counter, key);
  printf("%s\n    { \"counter\": [%u, %u, %u, %u], \"key\": [%u, %u], \"block\": [%u, %u, %u, %u] }", count++ ? "," : "", a, b, c, d,
         k0, k1, out.v[0], out.v[1], out.v[2], out.v[3]);
}

int main(void) {
  uint32_t x = 12345u;
  uint32_t w[6];
  printf("{\n  \"blocks\": [");
  block(0, 0, 0, 0, 0, 0);
  block(~0u, ~0u, ~0u, ~0u, ~0u, ~0u);
  block(0x243f6a88u, 0x85a308d3u, 0x13198a2eu, 0x03707344u, 0xa4093822u, 0x299f31d0u);
  block(1, 0, 0, 0, 0, 0);
  block(0, 1, 0, 0, 0, 0);
  block(0, 0, 1, 0, 0, 0);
  block(0, 0, 0, 1, 0, 0);
  block(0, 0, 0, 0, 1, 0);
  block(0, 0, 0, 0, 0, 1);
  for (int i = 0; i < 32; i++) {
    for (int j = 0; j < 6; j++) w[j] = x = x * 1664525u + 1013904223u;
    block(w[0], w[1], w[2], w[3], w[4], w[5]);
  }
  printf("\n  ]\n}\n");
  return 0;
}
