"""The trade's rules: values in, values out."""
