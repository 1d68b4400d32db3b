"""The finished plan tried many times: chances that dishes are done and hot, and the fuel's band."""
