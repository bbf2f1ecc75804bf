"""The body as a figure of rigid segments: poses, contacts, equilibrium, joint moments, demands.

Lengths are in centimetres and masses in kilograms; x points where the figure faces, y up and z to the
figure's right. Everything here is a static estimate for one standard body and no medical measure.
"""
